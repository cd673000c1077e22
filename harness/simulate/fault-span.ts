import type { Fault } from '../plant/fault.ts';

/** A fault and when it is there. */
export interface FaultSpan {
  fault: SimulatedFault;
  /** From this time of the manoeuvre on, s. */
  fromS: number;
  /** Until this time, s; Infinity = for good. */
  toS: number;
}

/** What may go wrong with the vehicle, or with its radio link. */
export type SimulatedFault = Fault | { kind: 'linkLost' };
