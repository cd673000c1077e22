import './globals.ts';
import { createInputs, createOutputs } from '../../lib/signals.ts';

axlewright.createInputs = createInputs;
axlewright.createOutputs = createOutputs;
