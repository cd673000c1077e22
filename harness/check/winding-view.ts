import { type Constants, V } from '../../lib/index.ts';

/**
 * Heat may be worked out in steps of so many ms, from the mean of the current's squares, and a step
 * may be longer by one gap between ticks.
 */
const HEAT_STEP_MS = 100;
/** The steps of this view. */
const STEP_MS = 30;

/**
 * How warm a winding is at least, as limit S8 means it: two bodies, Cw dw/dt = i^2 R (1 + a w) -
 * G1 (w - h) and Ch dh/dt = G1 (w - h) - G2 h. It is a lower bound of what a core may have worked
 * out in coarser steps: heat flows off by as much as it does in one explicit step of the longest
 * length, copper's resistance lags behind, and what counts is the least of the last one or two such
 * lengths. Time without a sample counts as unheated. A winding that passes on half of its heat in
 * one such length is not judged: there is none in a motor.
 */
export interface WindingView {
  /** Rise of the winding over ambient, K, at least. */
  rise: number;
  /** Its resistance at that heat, Ohm. */
  ohm(): number;
  /** @param ampere current, A; @param ms time it flowed */
  step(ampere: number, ms: number): void;
}

/** A winding as at power-up. */
export function createWindingView({ vehicle }: Constants): WindingView {
  const longest = (HEAT_STEP_MS + vehicle[V.GAP_MS]!) / 1000;
  const cold = vehicle[V.MOTOR_MOHM]! / 1000;
  const copper = vehicle[V.COPPER_PPM_K]! / 1e6;
  const inner = vehicle[V.WINDING_MJ_K]! / 1000;
  const outer = vehicle[V.HOUSING_MJ_K]! / 1000;
  const inward = vehicle[V.WINDING_MW_K]! / 1000;
  // Shares of a difference that flow off in one long step.
  const leaving = inner > 0 ? (inward * longest) / inner : 0;
  const passing = outer > 0 ? ((inward + vehicle[V.HOUSING_MW_K]! / 1000) * longest) / outer : 0;
  const away = outer > 0 ? ((vehicle[V.HOUSING_MW_K]! / 1000) * longest) / outer : 0;
  const judged = inner > 0 && leaving <= 0.5 && passing <= 0.5;
  let winding = judged ? vehicle[V.HEAT_START_K]! : 0;
  let housing = outer > 0 ? winding : 0;
  let recent = winding;
  let older = winding;
  let sinceMs = 0;
  let squares = 0;
  let heldMs = 0;
  const view = { rise: winding, ohm, step };

  function ohm(): number {
    return cold * (1 + copper * view.rise);
  }

  function step(ampere: number, ms: number): void {
    if (!judged) return;
    squares += ampere * ampere * ms;
    heldMs += ms;
    if (heldMs < STEP_MS) return;
    warm(squares / heldMs, heldMs / 1000);
    squares = 0;
    heldMs = 0;
  }

  function warm(square: number, seconds: number): void {
    const steps = seconds / longest;
    const heated = (square * ohm() * seconds) / inner;
    const flow = winding - housing;
    if (outer > 0) {
      housing += (inward * flow * seconds) / outer - housing * (1 - (1 - away) ** steps);
    }
    // Beyond any limit the value no longer matters, but it must stay a number.
    winding = Math.min(2000, winding + heated - flow * (1 - (1 - leaving) ** steps));
    sinceMs += seconds * 1000;
    if (sinceMs >= 1000 * longest) {
      sinceMs = 0;
      older = recent;
      recent = winding;
    }
    view.rise = Math.min(winding, recent, older);
  }

  return view;
}
