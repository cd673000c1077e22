import { type Constants, V } from '../../lib/index.ts';

/** Time constant of the low-pass that limits S8 and S9 read the supply through, ms. */
const SUPPLY_SMOOTHING_MS = 200;

/** The supply voltage as the limits mean it. */
export interface SupplyView {
  /** mV; the nominal voltage while none was measured. */
  voltage: number;
  /** The vehicle has the sensor and this tick brought no sample; 0 mV is none without a cut-off. */
  lost: boolean;
  step(batteryMv: number, forbidMs: number): void;
}

/** The supply as at power-up. */
export function createSupplyView({ vehicle }: Constants): SupplyView {
  const fitted = vehicle[V.HAS_SUPPLY] === 1;
  // Without a cut-off nothing stops a drive whose sensor reads nothing at all.
  const least = vehicle[V.SUPPLY_CUT_MV] === 0 ? 1 : 0;
  let measured = false;
  const view = { voltage: vehicle[V.SUPPLY_NOMINAL_MV]!, lost: false, step };

  function step(batteryMv: number, forbidMs: number): void {
    if (!fitted) return;
    view.lost = !(batteryMv >= least);
    if (view.lost) return;
    if (measured) {
      view.voltage += ((batteryMv - view.voltage) * forbidMs) / (SUPPLY_SMOOTHING_MS + forbidMs);
    } else view.voltage = batteryMv;
    measured = true;
  }

  return view;
}
