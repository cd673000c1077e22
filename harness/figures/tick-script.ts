/** What the measured script does besides its warm-up. */
export interface TickScript {
  /** Code of a bundle; slot 1 must be there if it fades. */
  bundle: string;
  /** Ticks after the warm-up. */
  ticks: number;
  /** false = the empty tick: the same loop and inputs, an empty function in place of the core. */
  steps: boolean;
  /** true = after the warm-up a cross-fade is always under way; each must take 1000 ticks. */
  fades: boolean;
}

/** Ticks from power-up until the car drives. */
const WARM_UP_TICKS = 200;

/**
 * An ES5 script that arms a core, drives it through bends and prints its state and flags. Two of
 * them that differ in `ticks` alone differ in cost by those ticks and nothing else.
 */
export function tickScript({ bundle, ticks, steps, fades }: TickScript): string {
  const slot = fades ? `i < ${WARM_UP_TICKS} ? 0 : (((i - ${WARM_UP_TICKS}) / 900) & 1) ^ 1` : '0';
  return `${bundle}
(function () {
  var core = axlewright.createController(axlewright.constants);
  var inputs = axlewright.createInputs(), outputs = axlewright.createOutputs();
  var step = core.step;
  function nothing(inputs, outputs) {}
  function tick(i, call) {
    // Triangle waves of different length, so that table, expo and slew all have work.
    var a = i % 100, b = i % 174;
    if (a > 50) a = 100 - a;
    if (b > 87) b = 174 - b;
    inputs.timeMs = i * 10;
    inputs.throttleUs = i < ${WARM_UP_TICKS - 50} ? 1500 : 1650 + 4 * a;
    inputs.steerUs = 1150 + 8 * b;
    inputs.ageMs = i % 8;
    inputs.slot = ${slot};
    inputs.guest = 0;
    inputs.batteryMv = 7300 + a;
    // At rest the noise of a gyro, of which its offset is learnt; then turning.
    inputs.yawRateMradS = i < ${WARM_UP_TICKS - 50} ? i & 1 : 12 * (43 - b) + (i & 1);
    inputs.currentMa[0] = 500 + 3 * a;
    inputs.currentMa[1] = 500 + 3 * b;
    call(inputs, outputs);
  }
  for (var i = 0; i < ${WARM_UP_TICKS}; i++) tick(i, step);
  for (var n = 0; n < ${ticks}; n++) tick(${WARM_UP_TICKS} + n, ${steps ? 'step' : 'nothing'});
  print(outputs.state + ' ' + outputs.flags);
})();
`;
}
