import { AT } from './at.ts';
import { type Frame, stand } from './frame.ts';

const { FOOTING, HEADING_COS, HEADING_SIN, PX, PY, X, Y } = AT;

/** Puts each wheel onto the patch it is over. `aimBody` must have been called for the yaw angle. */
export function findGround(frame: Frame): void {
  const { patches } = frame.description.ground;
  if (patches.length === 0) return;
  const n = frame.numbers;
  const cos = n[HEADING_COS]!;
  const sin = n[HEADING_SIN]!;
  for (let i = 0; i < 4; i++) {
    const x = n[X]! + (cos * n[PX + i]! - sin * n[PY + i]!);
    const y = n[Y]! + (sin * n[PX + i]! + cos * n[PY + i]!);
    let found = 0;
    for (let k = 0; k < patches.length; k++) {
      const { fromX, toX, fromY, toY } = patches[k]!;
      if (x >= fromX && x < toX && y >= fromY && y < toY) found = k + 1;
    }
    if (n[FOOTING + i] === found) continue;
    n[FOOTING + i] = found;
    stand(frame, i);
  }
}
