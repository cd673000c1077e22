import * as v from 'valibot';
import { choice, group, quantityOr } from './field.ts';

const tyres = group('How this car’s tyres differ from those the surface’s numbers were made for.', {
  frontFrictionPercent: quantityOr(100, {
    unit: '%',
    min: 20,
    max: 300,
    meaning: 'Grip of the front tyres, of the surface’s friction; softer rubber grips better.',
    wrong: 'Too high: a simulated car steers better than yours. Too low: it ploughs.',
  }),
  rearFrictionPercent: quantityOr(100, {
    unit: '%',
    min: 20,
    max: 300,
    meaning: 'Grip of the rear tyres, of the surface’s friction.',
    wrong: 'Too high: the tail of a simulated car holds on where yours comes round.',
  }),
  frontStiffnessPercent: quantityOr(100, {
    unit: '%',
    min: 20,
    max: 300,
    meaning: 'How steeply the force of the front tyres rises with slip, of the surface’s tyre.',
    wrong: 'Too high: a simulated car answers the steering sooner than yours.',
  }),
  rearStiffnessPercent: quantityOr(100, {
    unit: '%',
    min: 20,
    max: 300,
    meaning: 'The same of the rear tyres.',
    wrong: 'Too high: a simulated car runs straighter than yours.',
  }),
  // No figure is known for model tyres. Full-size ones lose about 10 % (from memory); with that the
  // reference car spins at any inside cut, against common practice (tests/plant). 0 to 5 to
  // plan for.
  loadSensitivityPercent: quantityOr(0, {
    unit: '%',
    min: 0,
    max: 50,
    meaning: 'Loss of grip of a tyre whose load doubles from a quarter of the weight.',
    zero: 'Grip is in proportion to load; roll stiffness shifts the balance only under power.',
    wrong: 'Too high: hard cornering costs a simulated car more grip than yours.',
  }),
});

const motor = group('What a simulated motor has beside `motor`.', {
  bridge: v.optional(
    choice(['brake', 'coast'], {
      meaning:
        'What the bridge does in the pauses of its PWM: "brake" shorts the motor, so that zero ' +
        'command brakes; "coast" opens it, so that the car rolls on.',
      wrong: 'A simulated car stops much sooner, or later, than yours.',
    }),
    'brake',
  ),
  rotorInertiaGCm2: quantityOr(0, {
    unit: 'g cm²',
    min: 0,
    max: 100000,
    meaning: 'Moment of inertia of one motor’s rotor with its pinion.',
    zero: 'Estimated: that of a bare motor that reaches its speed with a time constant of 20 ms.',
    wrong: 'Too large: wheels spin up and jam more slowly than yours.',
  }),
  inductanceUh: quantityOr(0, {
    unit: 'uH',
    min: 0,
    max: 100000,
    meaning: 'Inductance of the winding.',
    zero: 'The current follows the voltage at once.',
    wrong: 'Too large: currents lag behind.',
  }),
});

const battery = group('What a simulated pack has beside `battery`.', {
  chemistry: v.optional(
    choice(['constant', 'lithium', 'nickel'], {
      meaning:
        'How the open-circuit voltage falls with charge, from openCircuitV when full: not at ' +
        'all, like lithium polymer, or like nickel-metal hydride. Curves: common practice, ' +
        'no source.',
      wrong: 'A simulated car keeps its pace longer than yours, or loses it sooner.',
    }),
    'constant',
  ),
  capacityMah: quantityOr(0, {
    unit: 'mAh',
    min: 0,
    max: 100000,
    meaning: 'Charge of the full pack.',
    zero: 'It never empties.',
    wrong: 'Too large: a simulated car drives on when yours has stopped.',
  }),
  slowResistanceOhm: quantityOr(0, {
    unit: 'ohm',
    min: 0,
    max: 10,
    meaning: 'The part of the pack’s resistance whose drop comes and goes slowly.',
    zero: 'All sag comes at once.',
    wrong: 'Too large: the voltage of a simulated pack creeps down in a long drive.',
  }),
  slowTimeS: quantityOr(10, {
    unit: 's',
    min: 0.1,
    max: 1000,
    meaning: 'Time constant of that slow part.',
    wrong: 'Only the time after a hard start at which the voltage settles is wrong.',
  }),
});

const sensors = group('Errors of the simulated sensors.', {
  supplyStepMv: quantityOr(20, {
    unit: 'mV',
    min: 1,
    max: 1000,
    meaning: 'Least difference between two samples of the supply voltage.',
    wrong: 'Too small: a setup works in the simulation and chatters on the car.',
  }),
  supplyNoiseMv: quantityOr(15, {
    unit: 'mV',
    min: 0,
    max: 2000,
    meaning: 'Standard deviation of the noise on the supply voltage.',
    zero: 'No noise.',
    wrong: 'Too small: a setup works in the simulation and chatters on the car.',
  }),
  currentStepMa: quantityOr(20, {
    unit: 'mA',
    min: 1,
    max: 5000,
    meaning: 'Least difference between two samples of a motor’s current.',
    wrong: 'Too small: what is told from small currents works only in the simulation.',
  }),
  currentNoiseMa: quantityOr(30, {
    unit: 'mA',
    min: 0,
    max: 10000,
    meaning: 'Standard deviation of the noise on a motor’s current; brushes and PWM make it.',
    zero: 'No noise.',
    wrong: 'Too small: what is told from small currents works only in the simulation.',
  }),
  currentOffsetMa: quantityOr(0, {
    unit: 'mA',
    min: -5000,
    max: 5000,
    meaning: 'Reading of a current sensor without current.',
    zero: 'It reads 0.',
    wrong: 'A motor without load looks loaded, or a loaded one free.',
  }),
  gyroStepMradPerS: quantityOr(1, {
    unit: 'mrad/s',
    min: 1,
    max: 1000,
    meaning: 'Least difference between two samples of the yaw rate.',
    wrong: 'Too small: a simulated car holds its line better than yours.',
  }),
  gyroNoiseMradPerS: quantityOr(10, {
    unit: 'mrad/s',
    min: 0,
    max: 2000,
    meaning: 'Standard deviation of the noise on the yaw rate.',
    zero: 'No noise.',
    wrong: 'Too small: a simulated car holds its line better than yours.',
  }),
  gyroOffsetMradPerS: quantityOr(0, {
    unit: 'mrad/s',
    min: -2000,
    max: 2000,
    meaning: 'Reading of the gyro at a standstill.',
    zero: 'It reads 0.',
    wrong: 'The car pulls to one side wherever the gyro has a say.',
  }),
  wheelStepDegPerS: quantityOr(10, {
    unit: 'deg/s',
    min: 1,
    max: 10000,
    meaning: 'Least difference between two samples of a wheel’s speed.',
    wrong: 'Too fine: slip is found sooner in the simulation than in your car.',
  }),
  wheelNoiseDegPerS: quantityOr(10, {
    unit: 'deg/s',
    min: 0,
    max: 10000,
    meaning: 'Standard deviation of the noise in a sample of a wheel’s speed.',
    zero: 'No noise.',
    wrong: 'Too small: slip is found sooner in the simulation than in your car.',
  }),
  delayMs: quantityOr(0, {
    unit: 'ms',
    min: 0,
    max: 250,
    meaning: 'Age of every sample when the core gets it; at most 30 ticks.',
    zero: 'Samples are taken at the tick.',
    wrong: 'Too short: whatever acts on a sensor is calmer in the simulation than on the car.',
  }),
  dropoutPercent: quantityOr(0, {
    unit: '%',
    min: 0,
    max: 100,
    meaning: 'Share of samples that are missing.',
    zero: 'None.',
    wrong: 'Too small: gaps on the bus surprise you on the car.',
  }),
});

/** Schema of `plant` in `vehicle.ts`. */
export const plantSchema = group(
  'What only the simulated car needs. The defaults suit a club model; none of it reaches the hub.',
  {
    drivenAxle: v.optional(
      choice(['rear', 'front', 'all'], {
        meaning:
          'Which wheels the motor of a "single" or the motors of a "pair" drive; "all" only with ' +
          'a single motor. Other layouts leave it at "rear".',
        wrong: 'A simulated car pushes where yours pulls.',
      }),
      'rear',
    ),
    differential: v.optional(
      choice(['open', 'locked'], {
        meaning:
          'What shares the torque of a single motor between its wheels: open differentials, or ' +
          'none at all. Other layouts leave it at "open".',
        wrong: 'A simulated car turns in more easily, or less, than yours.',
      }),
      'open',
    ),
    frontTrackMm: quantityOr(0, {
      unit: 'mm',
      min: 0,
      max: 3000,
      meaning: 'Middle of the left to middle of the right front wheel.',
      zero: 'The same as trackMm.',
      wrong: 'Load shifts between the front wheels too much or too little.',
    }),
    wheelInertiaGCm2: quantityOr(0, {
      unit: 'g cm²',
      min: 0,
      max: 1000000,
      meaning: 'Moment of inertia of one wheel with its tyre, without the motor.',
      zero: 'Estimated: a fortieth of the car’s mass at the rim.',
      wrong: 'Too large: wheels spin up and lock more slowly than yours.',
    }),
    rollShareFrontPercent: quantityOr(50, {
      unit: '%',
      min: 0,
      max: 100,
      meaning: 'Share of the roll moment in a bend that the front springs take.',
      zero: 'The rear springs take it all.',
      wrong: 'Too high: a simulated car ploughs more than yours.',
    }),
    steeringRateDegPerS: quantityOr(350, {
      unit: 'deg/s',
      min: 10,
      max: 10000,
      meaning: 'How fast the servo turns the front wheels at most.',
      wrong: 'Too fast: a simulated slide is easier to catch than yours.',
    }),
    ackermannPercent: quantityOr(100, {
      unit: '%',
      min: 0,
      max: 150,
      meaning: 'How much more the inside front wheel turns: 100 = both point at the turn’s centre.',
      zero: 'Both front wheels turn by the same angle.',
      wrong: 'Only tight turns at low speed are wrong.',
    }),
    dragAreaCm2: quantityOr(0, {
      unit: 'cm²',
      min: 0,
      max: 10000,
      meaning: 'Drag coefficient times frontal area; half the frontal area for most bodies.',
      zero: 'Estimated: 1.75 times trackMm times cgHeightMm.',
      wrong: 'Too small: top speed comes out too high.',
    }),
    tyres: v.optional(tyres, {}),
    motor: v.optional(motor, {}),
    battery: v.optional(battery, {}),
    sensors: v.optional(sensors, {}),
  },
);
