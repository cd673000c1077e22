import { motorWords, wheelWords } from '../words/part-names.ts';
import type { FaultSpan, SimulatedFault } from './fault-span.ts';

/**
 * A fault in a sentence, with the wheel or motor by name.
 *
 * @param motors of the vehicle
 */
export function describeFault({ fault, fromS, toS }: FaultSpan, motors: number): string {
  const until = toS === Infinity ? '' : ` until ${toS.toFixed(2)} s`;
  return `${faultWords(fault, motors)}, from ${fromS.toFixed(2)} s on${until}.`;
}

/** The same without the time. */
export function faultWords(fault: SimulatedFault, motors: number): string {
  switch (fault.kind) {
    case 'slippedShaft':
      return `The shaft of the ${wheelWords(fault.wheel)} has slipped`;
    case 'lostWheel':
      return `The ${wheelWords(fault.wheel)} is gone`;
    case 'jammedWheel':
      return `The ${wheelWords(fault.wheel)} is jammed`;
    case 'slippedPinion':
      return `The pinion of the ${motorWords(fault.motor, motors)} slips`;
    case 'deadMotor':
      return `The ${motorWords(fault.motor, motors)} draws no current`;
    case 'lostDrive':
      return `Part "${fault.constraint}" of the driveline has come apart`;
    case 'frozenSensor': {
      const { sensor, index } = fault;
      if (index === undefined) return `Sensor ${sensor} is frozen`;
      const whose = sensor === 'current' ? motorWords(index, motors) : wheelWords(index);
      return `Sensor ${sensor} of the ${whose} is frozen`;
    }
    case 'linkLost':
      return 'No frame of the transmitter arrives';
  }
}
