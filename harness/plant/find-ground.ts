import { type Frame, stand } from './frame.ts';
import { X, Y } from './state.ts';

/** Puts each wheel onto the patch it is over. `frame.heading` must hold the yaw angle. */
export function findGround(frame: Frame): void {
  const { patches } = frame.description.ground;
  if (patches.length === 0) return;
  const { px, py, heading } = frame;
  const { body, footing } = frame.state;
  for (let i = 0; i < 4; i++) {
    const x = body[X]! + (heading[0]! * px[i]! - heading[1]! * py[i]!);
    const y = body[Y]! + (heading[1]! * px[i]! + heading[0]! * py[i]!);
    let found = 0;
    for (let k = 0; k < patches.length; k++) {
      const { fromX, toX, fromY, toY } = patches[k]!;
      if (x >= fromX && x < toX && y >= fromY && y < toY) found = k + 1;
    }
    if (footing[i] === found) continue;
    footing[i] = found;
    stand(frame, i);
  }
}
