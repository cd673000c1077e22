import './records.ts';
import type { Constants } from '../../lib/constants.ts';
import { type Core, createCore, createTrusted, refuse } from '../../lib/controller.ts';
import { Fit, isFitted } from '../../lib/fit.ts';

/** A core of the constants in the code itself, whatever is in those it is handed but their CRC. */
function createOwn(constants: Constants | null): Core {
  if (!constants || !isFitted(constants)) return { step: refuse, put: refuse, notice: 0 };
  return createTrusted(AXLEWRIGHT_CONSTANTS);
}

/** Nothing of the constants is needed outside but what tells them apart. */
const MARK: Constants = { vehicle: [], setups: [], crc: Fit.CONSTANTS_CRC };
const own = Fit.ONE_SET && !Fit.SETUPS_CHANGE;

axlewright.constants = own ? MARK : AXLEWRIGHT_CONSTANTS;
axlewright.createController = own ? createOwn : createCore;
