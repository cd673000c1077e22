import { MISSING } from './signals.ts';

/** The value if it is an integer from -32767 to 32767, else MISSING; never throws. */
export function int16(value: unknown): number {
  return typeof value === 'number' && value === (value | 0) && value > MISSING && value <= 32767
    ? value | 0
    : MISSING;
}

/** The value if it is a signed 32-bit integer, else MISSING; never throws. */
export function int32(value: unknown): number {
  return typeof value === 'number' && value === (value | 0) ? value | 0 : MISSING;
}
