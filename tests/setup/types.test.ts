import type * as v from 'valibot';
import { expect, expectTypeOf, test } from 'vitest';
import type { setupSchema } from '../../harness/setup/setup-schema.ts';
import type { surfaceSchema } from '../../harness/setup/surface-schema.ts';
import type { SetupInput, SurfaceInput, VehicleInput } from '../../harness/setup/types.ts';
import type { vehicleSchema } from '../../harness/setup/vehicle-schema.ts';
import { typesSource } from './types-source.ts';

test('the interfaces a user writes against say what the schemas say', async () => {
  await expect(typesSource()).toMatchFileSnapshot('../../harness/setup/types.ts');
});

test('the interfaces are the schemas’ own types (held by the type check)', () => {
  expectTypeOf<VehicleInput>().toEqualTypeOf<v.InferInput<typeof vehicleSchema>>();
  expectTypeOf<SurfaceInput>().toEqualTypeOf<v.InferInput<typeof surfaceSchema>>();
  expectTypeOf<SetupInput>().toEqualTypeOf<v.InferInput<typeof setupSchema>>();
});
