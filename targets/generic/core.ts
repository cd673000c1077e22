import './globals.ts';
import { createController } from '../../lib/controller.ts';
import { createInputs, createOutputs } from '../../lib/signals.ts';

axlewright.createController = createController;
axlewright.createInputs = createInputs;
axlewright.createOutputs = createOutputs;
axlewright.constants = AXLEWRIGHT_CONSTANTS;
