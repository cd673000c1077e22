import type { Manifest } from '../manifest.ts';

/** Any hub with an ES5 engine that hands in the record of ports described in ports.ts. */
export const generic: Manifest = {
  name: 'generic',
  language: 'es5',
  engine: 'any',
  // More than the goals of `npm run figures`, which every stage on at once misses.
  maxBytes: { core: 16384, full: 20480 },
  maxBytesPerFurtherSetup: 256,
  heapBytes: 262144,
  tickMs: 10,
  ports: [
    'nowMs',
    'readThrottleUs',
    'readSteerUs',
    'readInputAgeMs',
    'readBatteryMv',
    'readCurrentMa',
    'readWheelDegS',
    'readYawRate',
    'readSlot',
    'readGuest',
    'writeDrive',
    'writeEnable',
    'writeSteer',
    'writeBlock',
  ],
};
