import { AT } from '../../harness/plant/at.ts';
import { measureContacts } from '../../harness/plant/deflect-tyres.ts';
import { driveMotors } from '../../harness/plant/drive-motors.ts';
import { createFrame } from '../../harness/plant/frame.ts';
import { loadWheels } from '../../harness/plant/load-wheels.ts';
import { accelerateBody, aimBody } from '../../harness/plant/move-body.ts';
import type { PlantDescription } from '../../harness/plant/plant-description.ts';
import { pressTyres } from '../../harness/plant/press-tyres.ts';
import { type State, VX, VY, YAW, YAW_RATE } from '../../harness/plant/state.ts';
import { turnFront } from '../../harness/plant/steer-wheels.ts';
import { loadShafts, respond, sumTorques } from '../../harness/plant/turn-wheels.ts';

/**
 * The plant's equations as one right-hand side, for integrators that are not the plant's own:
 * body (6), wheels and motors, deflections (8), lagged accelerations (2). Commands are held, no
 * friction sticks, motors have no inductance, the battery and temperatures stay as they are.
 */
export interface Equations {
  /** The part of a state that the equations move. */
  read(state: State): number[];
  /** Rates of that part. */
  rates(values: readonly number[]): number[];
}

/** @param drive commands of the motors, permille; the steering stays where `state` has it */
export function equationsOf(
  description: PlantDescription,
  start: State,
  drive: readonly number[],
): Equations {
  const frame = createFrame(description, false);
  const { state } = frame;
  state.all.set(start.all);
  frame.command.set(drive);
  turnFront(frame);
  const count = 4 + frame.motorCount;
  return {
    read: (from) => [
      ...from.body,
      ...from.speeds.slice(0, count),
      ...from.deflection,
      ...from.transfer.slice(0, 2),
    ],
    rates: (values) => {
      state.body.set(values.slice(0, 6));
      state.speeds.set(values.slice(6, 6 + count));
      state.deflection.set(values.slice(6 + count, 14 + count));
      state.transfer.set(values.slice(14 + count, 16 + count));
      measureContacts(frame);
      aimBody(frame);
      loadWheels(frame);
      pressTyres(frame);
      driveMotors(frame, false);
      loadShafts(frame);
      for (let i = 0; i < count; i++)
        state.friction[i] = Math.sign(state.speeds[i]!) * frame.hold[i]!;
      sumTorques(frame);
      respond(frame, AT.SPEED_BEFORE, 0, count);
      const turning = frame.numbers.slice(AT.SPEED_BEFORE, AT.SPEED_BEFORE + count);
      accelerateBody(frame);
      const { body } = state;
      const [vx, vy, r] = [body[VX]!, body[VY]!, body[YAW_RATE]!];
      const [cos, sin] = [Math.cos(body[YAW]!), Math.sin(body[YAW]!)];
      const { contact, tyre } = frame;
      const slip = [contact.along, contact.across];
      const deflect = [0, 1, 2, 3, 4, 5, 6, 7].map((k) => {
        const i = k % 4;
        const back = (contact.rolling[i]! * state.deflection[k]!) / tyre.relaxation[i]!;
        return -slip[k < 4 ? 0 : 1]![i]! - back;
      });
      const { mass, yawInertia, loadLag } = description.body;
      return [
        cos * vx - sin * vy,
        sin * vx + cos * vy,
        r,
        frame.acceleration[0]! + r * vy,
        frame.acceleration[1]! - r * vx,
        frame.sum[2]! / yawInertia,
        ...turning,
        ...deflect,
        (frame.sum[0]! / mass - state.transfer[0]!) / loadLag,
        (frame.sum[1]! / mass - state.transfer[1]!) / loadLag,
      ];
    },
  };
}
