/** Names of the wheels on the command line, in the order of every array of the plant. */
export const WHEEL_NAMES: readonly string[] = ['rearLeft', 'rearRight', 'frontLeft', 'frontRight'];

/** Names of the motors of a vehicle on the command line, in the order of its arrays. */
export function motorNamesOf(count: number): readonly string[] {
  return count === 1 ? ['motor'] : count === 2 ? ['left', 'right'] : WHEEL_NAMES;
}

/** "rear left wheel". */
export function wheelWords(index: number): string {
  return `${spoken(WHEEL_NAMES[index]!)} wheel`;
}

/** "left motor", or "motor" where there is but one. */
export function motorWords(index: number, count: number): string {
  return count === 1 ? 'motor' : `${spoken(motorNamesOf(count)[index]!)} motor`;
}

/** "rear left" of "rearLeft". */
export function spoken(name: string): string {
  return name.replace(/[A-Z]/g, (letter) => ` ${letter.toLowerCase()}`);
}
