import type * as v from 'valibot';
import type { setupSchema } from './setup-schema.ts';
import type { surfaceSchema } from './surface-schema.ts';
import type { vehicleSchema } from './vehicle-schema.ts';

/** A checked vehicle with its defaults filled in. */
export type Vehicle = v.InferOutput<typeof vehicleSchema>;

/** A checked surface with its defaults filled in. */
export type Surface = v.InferOutput<typeof surfaceSchema>;

/** A checked setup with its defaults filled in. */
export type Setup = v.InferOutput<typeof setupSchema>;

/** A vehicle and the file it came from, as the user named it. */
export type LoadedVehicle = Vehicle & { file: string };

/** A setup and the file it came from, as the user named it. */
export type LoadedSetup = Setup & { file: string };
