import './globals.ts';
import { createCore } from '../../lib/controller.ts';
import { createInputs, createOutputs } from '../../lib/signals.ts';

axlewright.createController = createCore;
axlewright.createInputs = createInputs;
axlewright.createOutputs = createOutputs;
axlewright.constants = AXLEWRIGHT_CONSTANTS;
