import './records.ts';
import { createController } from '../../lib/loader.ts';
import { createRecorder } from '../../lib/recorder.ts';
import { boot, type Hub } from './boot.ts';
import type { Ports } from './ports.ts';

/** `boot` with the constants of this bundle. */
function bootEmbedded(ports: Partial<Ports>, records: number, blocks: number): Hub {
  return boot(ports, AXLEWRIGHT_CONSTANTS, records, blocks);
}

axlewright.constants = AXLEWRIGHT_CONSTANTS;
axlewright.createController = createController;
axlewright.createRecorder = createRecorder;
axlewright.boot = bootEmbedded;
