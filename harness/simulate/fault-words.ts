import type { FaultSpan, SimulatedFault } from './fault-span.ts';

/** Names of the wheels on the command line, in the order of every array of the plant. */
export const WHEEL_NAMES: readonly string[] = ['rearLeft', 'rearRight', 'frontLeft', 'frontRight'];

/** Names of the motors of a vehicle on the command line, in the order of its arrays. */
export function motorNamesOf(count: number): readonly string[] {
  return count === 1 ? ['motor'] : count === 2 ? ['left', 'right'] : WHEEL_NAMES;
}

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
      return `The shaft of the ${wheel(fault.wheel)} has slipped`;
    case 'lostWheel':
      return `The ${wheel(fault.wheel)} is gone`;
    case 'jammedWheel':
      return `The ${wheel(fault.wheel)} is jammed`;
    case 'slippedPinion':
      return `The pinion of the ${motor(fault.motor, motors)} slips`;
    case 'deadMotor':
      return `The ${motor(fault.motor, motors)} draws no current`;
    case 'lostDrive':
      return `Part "${fault.constraint}" of the driveline has come apart`;
    case 'frozenSensor': {
      const { sensor, index } = fault;
      if (index === undefined) return `Sensor ${sensor} is frozen`;
      const whose = sensor === 'current' ? motor(index, motors) : wheel(index);
      return `Sensor ${sensor} of the ${whose} is frozen`;
    }
    case 'linkLost':
      return 'No frame of the transmitter arrives';
  }
}

function wheel(index: number): string {
  return `${spoken(WHEEL_NAMES[index]!)} wheel`;
}

function motor(index: number, count: number): string {
  return count === 1 ? 'motor' : `${spoken(motorNamesOf(count)[index]!)} motor`;
}

/** "rear left" of "rearLeft". */
export function spoken(name: string): string {
  return name.replace(/[A-Z]/g, (letter) => ` ${letter.toLowerCase()}`);
}
