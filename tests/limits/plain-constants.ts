import { type Constants, Layout, S, TABLE_POINTS, V } from '../../lib/index.ts';
import { withCrc } from './arbitrary-constants.ts';

/** Values by index `V` or `S`. */
export type Changes = Readonly<Record<number, number>>;

/**
 * Constants in round numbers, made to be reckoned with by hand: a pair of motors, a tick of 10 ms,
 * no expo, no low-pass; a motor rises by 20, falls by 40 and stops by 50 permille a tick.
 *
 * @param change what differs in the vehicle, and in each setup there is to be
 */
export function plainConstants(change: {
  vehicle?: Changes;
  setups?: readonly Changes[];
}): Constants {
  const vehicle = changed(plainVehicle(), change.vehicle ?? {});
  const setups = (change.setups ?? [{}]).map((values) => changed(plainSetup(), values));
  return withCrc({ vehicle, setups, crc: 0 });
}

/** The same list with some values changed. */
export function changed(values: readonly number[], changes: Changes): number[] {
  const list = [...values];
  for (const [index, value] of Object.entries(changes)) list[Number(index)] = value;
  return list;
}

function plainVehicle(): number[] {
  const list = zeros(V.COUNT);
  const put = (at: number, ...values: number[]) => list.splice(at, values.length, ...values);
  put(V.FORMAT, 2, Layout.PAIR, 2, 10, 100);
  put(V.THROTTLE_LOW_US, 1000, 1500, 2000, 0);
  put(V.STEER_LOW_US, 1000, 1500, 2000, 0);
  put(V.PULSE_MARGIN_US, 100, 1, 1, 1);
  put(V.SUPPLY_REFERENCE_MV, 0, 7000, 6400, 6000, 200, 500, 300);
  put(V.MOTOR_MOHM, 500, 5000, 800, 500, 400);
  put(V.WINDING_MJ_K, 0, 20, 0, 30, 0, 60, 100, 0);
  put(V.BLIND_CAP, 300, 100, 3, 200, 7400);
  put(V.HAS_WHEEL_SPEED, 0, 1500, 1200, 250, 1400, 400, 150, 2000, 4500, 60, 150, 450);
  put(V.FRONT_INSIDE, ...zeros(2 * TABLE_POINTS).map(() => 10000));
  return list;
}

function plainSetup(): number[] {
  const list = zeros(S.COUNT);
  const put = (at: number, ...values: number[]) => list.splice(at, values.length, ...values);
  put(S.THROTTLE_DEAD_BAND, 100, 0, 1000, 1000, 0);
  put(S.STEER_DEAD_BAND, 0, 0, 1000, 1000, 0, 10000, 1000);
  put(S.HOLD_MS, 200, 0, 300, 1000);
  put(S.RISE, 2000, 4000, 5000, 100);
  put(S.CUT_CEILING, 500, 0, 1000, 0, 1, 400, 300);
  put(S.SPIN_REACTION, 0, 0, 0, 50, 400, 50, 400, 50, 400);
  put(S.FOUND_HOLD_MS, 300, 500, 300, 800);
  put(S.YAW_AUTHORITY, 0, 100, 200, 5, 5000);
  for (let i = 0; i < TABLE_POINTS; i++) list[S.CUT_TABLE + i] = i * 500;
  return list;
}

function zeros(count: number): number[] {
  return Array.from({ length: count }, () => 0);
}
