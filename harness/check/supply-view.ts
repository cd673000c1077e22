import { type Constants, V } from '../../lib/index.ts';

/** Time constant of the low-pass that limits S8 and S9 read the supply through, ms. */
const SUPPLY_SMOOTHING_MS = 200;

/** The supply voltage as the limits mean it. */
export interface SupplyView {
  /** mV; the nominal voltage while none was measured. */
  voltage: number;
  /** The vehicle has the sensor and this tick brought no sample. */
  lost: boolean;
  step(batteryMv: number, forbidMs: number): void;
}

/** The supply as at power-up. */
export function createSupplyView({ vehicle }: Constants): SupplyView {
  const fitted = vehicle[V.HAS_SUPPLY] === 1;
  let measured = false;
  const view = { voltage: vehicle[V.SUPPLY_NOMINAL_MV]!, lost: false, step };

  function step(batteryMv: number, forbidMs: number): void {
    if (!fitted) return;
    view.lost = !(batteryMv >= 0);
    if (view.lost) return;
    if (measured) {
      view.voltage += ((batteryMv - view.voltage) * forbidMs) / (SUPPLY_SMOOTHING_MS + forbidMs);
    } else view.voltage = batteryMv;
    measured = true;
  }

  return view;
}
