import { Body, Box, Plane, RaycastVehicle, SAPBroadphase, Vec3, World } from 'cannon-es';
import type { PlantDescription } from '../plant/plant-description.ts';

/** A car in a general-purpose rigid-body engine, driven like a plant. */
export interface RigidBodyCar {
  /** Puts it back to the start, at rest. */
  place(): void;
  /** As `Plant.step`: commands in permille, dt in s. */
  step(drive: ArrayLike<number>, steer: number, dt: number): void;
  /** Distance from the start, m. */
  way(): number;
  /** Number of wheels that touch the ground. */
  wheelsDown(): number;
}

/**
 * The same masses, measures, motors and friction as far as that engine's ray-cast vehicle knows
 * them: a box with six degrees of freedom on four sprung rays; side and drive force by an impulse
 * under a friction cap. It has no driveline, motor, battery, heat or tyre curve; each motor's
 * torque is reckoned here from the speed of the car.
 */
export function createRigidBodyCar(plant: PlantDescription): RigidBodyCar {
  const { body, wheelRadius, ground, gravity } = plant;
  const radius = wheelRadius[0]!;
  const world = new World({ gravity: new Vec3(0, 0, -gravity) });
  world.broadphase = new SAPBroadphase(world);
  world.defaultContactMaterial.friction = 0;
  world.addBody(new Body({ mass: 0, shape: new Plane() }));
  const length = body.cgToFront + body.cgToRear;
  const chassis = new Body({ mass: body.mass });
  chassis.addShape(new Box(new Vec3(0.7 * length, body.trackRear / 2, body.cgHeight / 2)));
  world.addBody(chassis);
  const vehicle = new RaycastVehicle({
    chassisBody: chassis,
    indexForwardAxis: 0,
    indexRightAxis: 1,
    indexUpAxis: 2,
  });
  for (const x of [-body.cgToRear, body.cgToFront]) {
    for (const y of [body.trackRear / 2, -body.trackRear / 2]) {
      vehicle.addWheel({
        radius,
        directionLocal: new Vec3(0, 0, -1),
        axleLocal: new Vec3(0, 1, 0),
        chassisConnectionPointLocal: new Vec3(x, y, 0),
        suspensionStiffness: STIFFNESS,
        suspensionRestLength: SAG,
        maxSuspensionTravel: SAG,
        dampingRelaxation: DAMPING,
        dampingCompression: DAMPING,
        maxSuspensionForce: MOST_FORCE,
        frictionSlip: ground.base.friction,
        rollInfluence: 0.01,
      });
    }
  }
  vehicle.addToWorld(world);
  return {
    place: () => {
      chassis.position.set(0, 0, radius + SAG);
      chassis.quaternion.set(0, 0, 0, 1);
      chassis.velocity.setZero();
      chassis.angularVelocity.setZero();
    },
    step: (drive, steer, dt) => {
      const speed = Math.hypot(chassis.velocity.x, chassis.velocity.y);
      // Its engine force points backwards where x is forward.
      for (let m = 0; m < 2; m++)
        vehicle.applyEngineForce(-engineForce(plant, drive[m]! / 1000, speed), m);
      const angle = (steer / 1000) * plant.steering.lock;
      vehicle.setSteeringValue(angle, 2);
      vehicle.setSteeringValue(angle, 3);
      world.step(dt);
    },
    way: () => Math.hypot(chassis.position.x, chassis.position.y),
    wheelsDown: () => vehicle.wheelInfos.filter((wheel) => wheel.isInContact).length,
  };
}

/** Suspension: rest length, m; stiffness and damping over the mass, 1/s², 1/s; N. */
const SAG = 0.02;
const STIFFNESS = 300;
const DAMPING = 10;
const MOST_FORCE = 1000;

/** Force of a DC motor through its gear at the wheel's rim, N. */
function engineForce(plant: PlantDescription, duty: number, speed: number): number {
  const { constant, resistance } = plant.motors[0]!;
  const ratio = Math.abs(plant.driveline.motors[0]!.reduce((sum, turns) => sum + turns, 0));
  const radius = plant.wheelRadius[0]!;
  const voltage = duty * plant.battery.openCircuit.at(-1)!;
  const current = (voltage - (constant * ratio * speed) / radius) / resistance;
  return (constant * ratio * current) / radius;
}
