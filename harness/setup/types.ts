// Written from the schemas by tests/setup/types.test.ts; to write it again:
// npx vitest run tests/setup/types.test.ts -u

/** The car: geometry, motors, pack, receiver, sensors. */
export interface VehicleInput {
  /**
   * Name of the vehicle, as in reports and in the bundle’s header.
   *
   * A text of 1 to 40 characters; required.
   *
   * If wrong: Runs of two cars get mixed up.
   */
  name: string;
  /**
   * The n of the scale 1:n; 12 for a 1:12 model.
   *
   * 1 to 200 (1:n); required.
   *
   * If wrong: Only figures scaled to the full-size car are wrong.
   */
  scale: number;
  /**
   * How the motors are laid out: one motor; left and right on one axle; rear and front pair; left
   * and right track or skid-steered side.
   *
   * "single" or "pair" or "twoPairs" or "tracked"; required.
   *
   * If wrong: Commands reach the wrong motors. Try it with the wheels in the air.
   */
  layout: 'single' | 'pair' | 'twoPairs' | 'tracked';
  /**
   * How the front wheels of a "pair" are driven: not at all, or through a differential that
   * averages both rear sides.
   *
   * "none" or "averaged"; default "none".
   *
   * If wrong: A simulated car pulls itself round bends that yours does not, or the reverse.
   */
  frontDrive?: 'none' | 'averaged' | undefined;
  /**
   * Nominal time between two ticks of the core on the hub.
   *
   * 1 to 100 (ms), a whole number; default 10.
   *
   * If wrong: Shorter than the hub’s: every tick counts as late. Longer: commands rise too slowly.
   */
  tickMs?: number | undefined;
  /**
   * Two ticks further apart than this count as a loss of signal; at least two ticks.
   *
   * 5 to 1000 (ms), a whole number; default 60.
   *
   * If wrong: Too short: stops without need. Too long: a hub that hangs drives on unnoticed.
   */
  gapMs?: number | undefined;
  /**
   * Mass ready to drive, with pack and body.
   *
   * 0.02 to 100 (kg); required.
   *
   * If wrong: Acceleration and grip of a simulated car are out in proportion.
   */
  massKg: number;
  /**
   * Front axle to rear axle; for tracks the length of track on the ground.
   *
   * 30 to 3000 (mm); required.
   *
   * If wrong: Too long: bends are taken for wider than they are and the cut is too small.
   */
  wheelbaseMm: number;
  /**
   * Middle of the left to middle of the right driven wheel, or track.
   *
   * 20 to 3000 (mm); required.
   *
   * If wrong: Too wide: the geometric cut is too large.
   */
  trackMm: number;
  /**
   * Front axle back to the centre of gravity: wheelbase times rear axle load over weight.
   *
   * 1 to 3000 (mm); required.
   *
   * If wrong: Too small: a simulated car steers better than yours. Too large: it ploughs.
   */
  cgToFrontAxleMm: number;
  /**
   * Ground to the centre of gravity.
   *
   * 1 to 1000 (mm); required.
   *
   * If wrong: Too low: load transfer, and the risk of a roll-over, come out too small.
   */
  cgHeightMm: number;
  /**
   * Moment of inertia about the vertical axis; not measured, about massKg times wheelbase in metres
   * squared over 5.
   *
   * 0.000001 to 500 (kg m²); required.
   *
   * If wrong: Too large: a simulated car turns in lazily and is hard to stop turning.
   */
  yawInertiaKgM2: number;
  /**
   * Rolling radius of a driven wheel under load; for tracks that of the sprocket.
   *
   * 5 to 1000 (mm); required.
   *
   * If wrong: Speeds over ground are out in proportion.
   */
  wheelRadiusMm: number;
  /**
   * Steering angle at full lock, mean of both front wheels; for tracks the angle whose wheelbase /
   * tan is the tightest radius wanted on the move.
   *
   * 5 to 60 (deg); required.
   *
   * If wrong: Too large: the geometric cut is too large and the tail comes round.
   */
  steeringLockDeg: number;
  /** Servo pulses that arrive from the receiver. */
  receiver?: VehicleReceiver | undefined;
  /** One drive motor with its gear; all motors are alike. */
  motor: VehicleMotor;
  /** The pack that feeds the motors. */
  battery: VehicleBattery;
  /** What this vehicle measures. A sensor that is fitted must deliver. */
  sensors?: VehicleSensors | undefined;
  /** Limits of the vehicle that hold whatever a setup says. */
  limits?: VehicleLimits | undefined;
  /**
   * What only the simulated car needs. The defaults suit a club model; none of it reaches the hub.
   */
  plant?: VehiclePlant | undefined;
}

/** Servo pulses that arrive from the receiver. */
interface VehicleReceiver {
  /** The throttle channel. */
  throttle?: VehicleReceiverThrottle | undefined;
  /** The steering channel. */
  steering?: VehicleReceiverSteering | undefined;
  /**
   * A pulse this far outside its calibration is invalid and counts as lost.
   *
   * 0 to 400 (us); default 100.
   *
   * 0: A pulse 1 us past its end counts as lost.
   *
   * If wrong: Too small: drop-outs at full stick. Too large: noise is taken for a command.
   */
  marginUs?: number | undefined;
}

/** The throttle channel. */
interface VehicleReceiverThrottle {
  /**
   * Shortest pulse the receiver sends: stick at one end.
   *
   * 500 to 2500 (us); default 1000.
   *
   * If wrong: Too low: full command is never reached. Too high: it is reached too early.
   */
  lowUs?: number | undefined;
  /**
   * Pulse with the stick at rest.
   *
   * 500 to 2500 (us); default 1500.
   *
   * If wrong: Off: the car creeps or pulls to one side, or never finds neutral and never arms.
   */
  centreUs?: number | undefined;
  /**
   * Longest pulse the receiver sends: stick at the other end.
   *
   * 500 to 2500 (us); default 2000.
   *
   * If wrong: Too high: full command is never reached. Too low: it is reached too early.
   */
  highUs?: number | undefined;
  /**
   * false: a pulse above the centre drives forward. true: one below it does.
   *
   * True or false; default false.
   *
   * If wrong: The car does the opposite of what the stick says. Try it with the wheels in the air.
   */
  reversed?: boolean | undefined;
}

/** The steering channel. */
interface VehicleReceiverSteering {
  /**
   * Shortest pulse the receiver sends: stick at one end.
   *
   * 500 to 2500 (us); default 1000.
   *
   * If wrong: Too low: full command is never reached. Too high: it is reached too early.
   */
  lowUs?: number | undefined;
  /**
   * Pulse with the stick at rest.
   *
   * 500 to 2500 (us); default 1500.
   *
   * If wrong: Off: the car creeps or pulls to one side, or never finds neutral and never arms.
   */
  centreUs?: number | undefined;
  /**
   * Longest pulse the receiver sends: stick at the other end.
   *
   * 500 to 2500 (us); default 2000.
   *
   * If wrong: Too high: full command is never reached. Too low: it is reached too early.
   */
  highUs?: number | undefined;
  /**
   * false: a pulse above the centre steers left. true: one below it does.
   *
   * True or false; default false.
   *
   * If wrong: The car does the opposite of what the stick says. Try it with the wheels in the air.
   */
  reversed?: boolean | undefined;
}

/** One drive motor with its gear; all motors are alike. */
interface VehicleMotor {
  /**
   * Resistance of winding, leads and bridge, cold: voltage over current with the shaft held.
   *
   * 0.001 to 100 (ohm); required.
   *
   * If wrong: Too high: a stall is seen where there is none. Too low: a stall goes unseen.
   */
  resistanceOhm: number;
  /**
   * Voltage at which noLoadSpeedRpm and noLoadCurrentMa were measured.
   *
   * 1 to 32 (V); required.
   *
   * If wrong: Speed and torque of the motor come out in the wrong proportion.
   */
  nominalVoltageV: number;
  /**
   * Speed of the motor shaft, without gear and load, at nominalVoltageV.
   *
   * 100 to 100000 (rpm); required.
   *
   * If wrong: Too high: speeds estimated from current are too high, torque too low.
   */
  noLoadSpeedRpm: number;
  /**
   * Current the motor draws at that speed, without gear and load.
   *
   * 0 to 10000 (mA); required.
   *
   * 0: The motor has no friction of its own.
   *
   * If wrong: Too high: a shaft that has slipped out looks like a driven one.
   */
  noLoadCurrentMa: number;
  /**
   * Turns of the motor for one turn of the wheel.
   *
   * 0.1 to 1000; required.
   *
   * If wrong: Speeds of the wheels are out by the same factor.
   */
  gearRatio: number;
  /**
   * Share of the motor’s torque that the gear passes on to the wheel.
   *
   * 10 to 100 (%); default 85.
   *
   * If wrong: Too high: a simulated car pulls harder than yours.
   */
  gearEfficiencyPercent?: number | undefined;
  /**
   * By how much resistance, speed and torque above may be wrong; findings allow for it.
   *
   * 0 to 50 (%); default 15.
   *
   * 0: Taken as exact.
   *
   * If wrong: Too small: false alarms. Too large: a wheel that spins is found late or never.
   */
  modelErrorPercent?: number | undefined;
  /**
   * Current the motor bears for ever at ambientC. Below it no motor counts as stalled; an I2t heat
   * model settles at its limit under it.
   *
   * 1 to 32000 (mA); required.
   *
   * If wrong: Too high: the motor burns slowly. Too low: power is taken away without need.
   */
  continuousCurrentMa: number;
  /**
   * Ceiling on the current of each motor; needs sensors.current.
   *
   * 0 to 32000 (mA); default 0.
   *
   * 0: No ceiling.
   *
   * If wrong: Too high: bridge or cells give out first. Too low: the car cannot climb or pull away.
   */
  currentLimitMa?: number | undefined;
  /**
   * A motor that draws stall current this long is stopped; needs sensors.current.
   *
   * 0 to 10000 (ms); default 500.
   *
   * 0: A stalled motor is never stopped for it.
   *
   * If wrong: Too long: smoke. Too short: a hard start from rest counts as a stall, and so does
   * braking with locked wheels, which takes top speed over friction and 9.8 m/s².
   */
  stallTimeMs?: number | undefined;
  /**
   * Current counts as stall current from this share of supply voltage over resistance; with heat of
   * kind "twoBody" over that of the winding as warm as it is by then.
   *
   * 10 to 100 (%); default 80.
   *
   * If wrong: Too low: climbing counts as a stall. Too high: resistance that grew hides one; copper
   * grows by 0.39 % per K, so without "twoBody" 80 % no longer tells at 64 K more.
   */
  stallSharePercent?: number | undefined;
  /**
   * Winding temperature at which the drive stops; derating begins at 85 % of the way.
   *
   * 40 to 300 (°C); default 120.
   *
   * If wrong: Too high: varnish and brushes go. Too low: power goes on a warm day.
   */
  maxWindingC?: number | undefined;
  /**
   * Temperature of the air around the motors, inside the body on the warmest day.
   *
   * -20 to 60 (°C); default 25.
   *
   * 0: Freezing point.
   *
   * If wrong: Too low: the windings are hotter than the core believes, by the difference.
   */
  ambientC?: number | undefined;
  /**
   * Temperature assumed at power-up; a hub that was off does not know how long.
   *
   * -20 to 300 (°C); default 40.
   *
   * 0: Freezing point.
   *
   * If wrong: Too low: a quick change of cells makes the core forget a hot motor.
   */
  startWindingC?: number | undefined;
  /** One of 3 kinds, told apart by "kind". */
  heat: VehicleMotorHeat;
}

/** One of 3 kinds, told apart by "kind". */
type VehicleMotorHeat = VehicleMotorHeatTwoBody | VehicleMotorHeatI2t | VehicleMotorHeatNone;

interface VehicleMotorHeatTwoBody {
  /**
   * Winding and housing as two bodies: the better model if you know four numbers; needs
   * sensors.current.
   */
  kind: 'twoBody';
  /**
   * Heat the winding takes up per kelvin: mass of copper in kg times 385.
   *
   * 0.01 to 10000 (J/K); required.
   *
   * If wrong: Too large: a burst that burns the winding is let pass. Too small: power goes early.
   */
  windingJPerK: number;
  /**
   * Heat that flows from winding to housing per kelvin between them.
   *
   * 0.001 to 1000 (W/K); required.
   *
   * If wrong: Too large: the winding is hotter than the core believes.
   */
  windingToHousingWPerK: number;
  /**
   * Heat the housing takes up per kelvin: mass of steel in kg times 460.
   *
   * 0.01 to 10000 (J/K); required.
   *
   * If wrong: Too large: a long drive overheats the motor unnoticed.
   */
  housingJPerK: number;
  /**
   * Heat that flows from housing to the air, and into its mount, per kelvin.
   *
   * 0.001 to 1000 (W/K); required.
   *
   * If wrong: Too large, as for a motor shut in a body: it overheats on long drives.
   */
  housingToAmbientWPerK: number;
}

interface VehicleMotorHeatI2t {
  /** One body that settles at its limit under continuousCurrentMa (I2t); needs sensors.current. */
  kind: 'i2t';
  /**
   * Time in which the winding warms to 63 % of where it settles under a steady current.
   *
   * 2 to 3600 (s); required.
   *
   * If wrong: Too long: bursts that burn the winding are let pass. Too short: power goes early.
   */
  timeConstantS: number;
}

interface VehicleMotorHeatNone {
  /** No heat model: nothing guards the windings. */
  kind: 'none';
}

/** The pack that feeds the motors. */
interface VehicleBattery {
  /**
   * Voltage of the charged pack without load; assumed where none is measured.
   *
   * 1 to 32 (V); required.
   *
   * If wrong: Without a supply sensor stall currents and ceilings are judged by the wrong voltage.
   */
  openCircuitV: number;
  /**
   * Drop of voltage per ampere drawn: (V1 - V2) / (I2 - I1) at two loads.
   *
   * 0 to 10 (ohm); required.
   *
   * 0: The voltage never sags.
   *
   * If wrong: Too low: a simulated pack never sags and yours does.
   */
  internalResistanceOhm: number;
  /**
   * Full command never means more than this voltage, so that a fresh pack drives like a used one;
   * needs sensors.supply.
   *
   * 0 to 32 (V); default 0.
   *
   * 0: Not compensated: full command means whatever the pack gives.
   *
   * If wrong: Too low: power is given away. Above the pack’s voltage: it does nothing.
   */
  referenceV?: number | undefined;
  /**
   * Below this the drive is derated, more the lower; needs sensors.supply.
   *
   * 0 to 32 (V); default 0.
   *
   * 0: No derating; then lowV and cutV are 0 as well.
   *
   * If wrong: Too high: weak from the start. Too low: the cut-off comes without warning.
   */
  warnV?: number | undefined;
  /**
   * Here derating has reached floorPercent; needs sensors.supply.
   *
   * 0 to 32 (V); default 0.
   *
   * 0: Derating is stretched over all voltages below warnV; then cutV is 0 as well.
   *
   * If wrong: Too close to warnV: power goes all at once.
   */
  lowV?: number | undefined;
  /**
   * Below this for cutTimeMs the drive stops and latches; needs sensors.supply.
   *
   * 0 to 32 (V); default 0.
   *
   * 0: Never.
   *
   * If wrong: Too low: cells are ruined and may swell. Too high: a sag in a hard start stops the
   * car.
   */
  cutV?: number | undefined;
  /**
   * The supply must rise by this before derating is eased.
   *
   * 0 to 5 (V); default 0.2.
   *
   * 0: Derating is eased as soon as the voltage recovers.
   *
   * If wrong: Too small: the car surges as the pack sags and recovers. Too large: stays derated.
   */
  hysteresisV?: number | undefined;
  /**
   * How long the supply must stay below cutV.
   *
   * 10 to 10000 (ms); default 500.
   *
   * If wrong: Too short: one hard start stops the car. Too long: cells are drained below their
   * limit.
   */
  cutTimeMs?: number | undefined;
  /**
   * What is left of the drive at lowV.
   *
   * 0 to 100 (%); default 30.
   *
   * 0: At lowV the car stands still.
   *
   * If wrong: Too high: the pack is pulled down to its cut-off. Too low: no way home.
   */
  floorPercent?: number | undefined;
}

/** What this vehicle measures. A sensor that is fitted must deliver. */
interface VehicleSensors {
  /**
   * The hub measures the supply voltage.
   *
   * True or false; default false.
   *
   * If wrong: true without a sensor: the blind cap stays on. false with one: no guard for the
   * cells.
   */
  supply?: boolean | undefined;
  /**
   * The hub measures the current of each motor.
   *
   * True or false; default false.
   *
   * If wrong: true without a sensor: the blind cap stays on. false with one: no guard for the
   * motors.
   */
  current?: boolean | undefined;
  /**
   * The hub measures the yaw rate.
   *
   * True or false; default false.
   *
   * If wrong: true without a sensor: every sample counts as lost.
   */
  gyro?: boolean | undefined;
  /**
   * The hub measures the speed of each motor’s wheel.
   *
   * True or false; default false.
   *
   * If wrong: true without a sensor: every sample counts as lost. false: speed is told by current.
   */
  wheelSpeed?: boolean | undefined;
  /**
   * Greatest error of one sample of current: its step, noise and offset together.
   *
   * 1 to 10000 (mA); default 60.
   *
   * If wrong: Too small: false alarms. Too large: a wheel that spins is found late or never.
   */
  currentErrorMa?: number | undefined;
}

/** Limits of the vehicle that hold whatever a setup says. */
interface VehicleLimits {
  /**
   * Greatest command while a sensor the vehicle has gives no sample.
   *
   * 0 to 100 (%); default 40.
   *
   * 0: Without its sensors the car does not drive.
   *
   * If wrong: Too high: motors and cells are unguarded at full power.
   */
  blindCapPercent?: number | undefined;
  /**
   * Steepest rise of any command that the last stage lets pass, by tick count; at most full command
   * in two ticks.
   *
   * 5 to 10000 (%/s); default 500.
   *
   * If wrong: Too high: a fault upstream reaches the gears. Too low: every setup feels slow.
   */
  riseCeilingPercentPerS?: number | undefined;
  /**
   * Least time at zero between directions, in whole ticks; at most 100 ticks.
   *
   * 0 to 1000 (ms); default 50.
   *
   * 0: A setup may reverse a motor without a rest.
   *
   * If wrong: Too short: a reversal shocks shafts and bridges.
   */
  dwellMs?: number | undefined;
  /**
   * Time constant from command to speed, for the speed estimate without sensors.
   *
   * 1 to 10000 (ms); default 400.
   *
   * If wrong: Too short: steering is limited before the car is fast. Too long: it comes too late.
   */
  speedLagMs?: number | undefined;
}

/**
 * What only the simulated car needs. The defaults suit a club model; none of it reaches the hub.
 */
interface VehiclePlant {
  /**
   * Which wheels the motor of a "single" or the motors of a "pair" drive; "all" only with a single
   * motor. Other layouts leave it at "rear".
   *
   * "rear" or "front" or "all"; default "rear".
   *
   * If wrong: A simulated car pushes where yours pulls.
   */
  drivenAxle?: 'rear' | 'front' | 'all' | undefined;
  /**
   * What shares the torque of a single motor between its wheels: open differentials, or none at
   * all. Other layouts leave it at "open".
   *
   * "open" or "locked"; default "open".
   *
   * If wrong: A simulated car turns in more easily, or less, than yours.
   */
  differential?: 'open' | 'locked' | undefined;
  /**
   * Middle of the left to middle of the right front wheel.
   *
   * 0 to 3000 (mm); default 0.
   *
   * 0: The same as trackMm.
   *
   * If wrong: Load shifts between the front wheels too much or too little.
   */
  frontTrackMm?: number | undefined;
  /**
   * Moment of inertia of one wheel with its tyre, without the motor.
   *
   * 0 to 1000000 (g cm²); default 0.
   *
   * 0: Estimated: a fortieth of the car’s mass at the rim.
   *
   * If wrong: Too large: wheels spin up and lock more slowly than yours.
   */
  wheelInertiaGCm2?: number | undefined;
  /**
   * Share of the roll moment in a bend that the front springs take.
   *
   * 0 to 100 (%); default 50.
   *
   * 0: The rear springs take it all.
   *
   * If wrong: Too high: a simulated car ploughs more than yours.
   */
  rollShareFrontPercent?: number | undefined;
  /**
   * How fast the servo turns the front wheels at most.
   *
   * 10 to 10000 (deg/s); default 350.
   *
   * If wrong: Too fast: a simulated slide is easier to catch than yours.
   */
  steeringRateDegPerS?: number | undefined;
  /**
   * How much more the inside front wheel turns: 100 = both point at the turn’s centre.
   *
   * 0 to 150 (%); default 100.
   *
   * 0: Both front wheels turn by the same angle.
   *
   * If wrong: Only tight turns at low speed are wrong.
   */
  ackermannPercent?: number | undefined;
  /**
   * Drag coefficient times frontal area; half the frontal area for most bodies.
   *
   * 0 to 10000 (cm²); default 0.
   *
   * 0: Estimated: 1.75 times trackMm times cgHeightMm.
   *
   * If wrong: Too small: top speed comes out too high.
   */
  dragAreaCm2?: number | undefined;
  /** How this car’s tyres differ from those the surface’s numbers were made for. */
  tyres?: VehiclePlantTyres | undefined;
  /** What a simulated motor has beside `motor`. */
  motor?: VehiclePlantMotor | undefined;
  /** What a simulated pack has beside `battery`. */
  battery?: VehiclePlantBattery | undefined;
  /** Errors of the simulated sensors. */
  sensors?: VehiclePlantSensors | undefined;
}

/** How this car’s tyres differ from those the surface’s numbers were made for. */
interface VehiclePlantTyres {
  /**
   * Grip of the front tyres, of the surface’s friction; softer rubber grips better.
   *
   * 20 to 300 (%); default 100.
   *
   * If wrong: Too high: a simulated car steers better than yours. Too low: it ploughs.
   */
  frontFrictionPercent?: number | undefined;
  /**
   * Grip of the rear tyres, of the surface’s friction.
   *
   * 20 to 300 (%); default 100.
   *
   * If wrong: Too high: the tail of a simulated car holds on where yours comes round.
   */
  rearFrictionPercent?: number | undefined;
  /**
   * How steeply the force of the front tyres rises with slip, of the surface’s tyre.
   *
   * 20 to 300 (%); default 100.
   *
   * If wrong: Too high: a simulated car answers the steering sooner than yours.
   */
  frontStiffnessPercent?: number | undefined;
  /**
   * The same of the rear tyres.
   *
   * 20 to 300 (%); default 100.
   *
   * If wrong: Too high: a simulated car runs straighter than yours.
   */
  rearStiffnessPercent?: number | undefined;
  /**
   * Loss of grip of a tyre whose load doubles from a quarter of the weight.
   *
   * 0 to 50 (%); default 0.
   *
   * 0: Grip is in proportion to load; roll stiffness shifts the balance only under power.
   *
   * If wrong: Too high: hard cornering costs a simulated car more grip than yours.
   */
  loadSensitivityPercent?: number | undefined;
}

/** What a simulated motor has beside `motor`. */
interface VehiclePlantMotor {
  /**
   * What the bridge does in the pauses of its PWM: "brake" shorts the motor, so that zero command
   * brakes; "coast" opens it, so that the car rolls on.
   *
   * "brake" or "coast"; default "brake".
   *
   * If wrong: A simulated car stops much sooner, or later, than yours.
   */
  bridge?: 'brake' | 'coast' | undefined;
  /**
   * Moment of inertia of one motor’s rotor with its pinion.
   *
   * 0 to 100000 (g cm²); default 0.
   *
   * 0: Estimated: that of a bare motor that reaches its speed with a time constant of 20 ms.
   *
   * If wrong: Too large: wheels spin up and jam more slowly than yours.
   */
  rotorInertiaGCm2?: number | undefined;
  /**
   * Inductance of the winding.
   *
   * 0 to 100000 (uH); default 0.
   *
   * 0: The current follows the voltage at once.
   *
   * If wrong: Too large: currents lag behind.
   */
  inductanceUh?: number | undefined;
}

/** What a simulated pack has beside `battery`. */
interface VehiclePlantBattery {
  /**
   * How the open-circuit voltage falls with charge, from openCircuitV when full: not at all, like
   * lithium polymer, or like nickel-metal hydride. Curves: common practice, no source.
   *
   * "constant" or "lithium" or "nickel"; default "constant".
   *
   * If wrong: A simulated car keeps its pace longer than yours, or loses it sooner.
   */
  chemistry?: 'constant' | 'lithium' | 'nickel' | undefined;
  /**
   * Charge of the full pack.
   *
   * 0 to 100000 (mAh); default 0.
   *
   * 0: It never empties.
   *
   * If wrong: Too large: a simulated car drives on when yours has stopped.
   */
  capacityMah?: number | undefined;
  /**
   * The part of the pack’s resistance whose drop comes and goes slowly.
   *
   * 0 to 10 (ohm); default 0.
   *
   * 0: All sag comes at once.
   *
   * If wrong: Too large: the voltage of a simulated pack creeps down in a long drive.
   */
  slowResistanceOhm?: number | undefined;
  /**
   * Time constant of that slow part.
   *
   * 0.1 to 1000 (s); default 10.
   *
   * If wrong: Only the time after a hard start at which the voltage settles is wrong.
   */
  slowTimeS?: number | undefined;
}

/** Errors of the simulated sensors. */
interface VehiclePlantSensors {
  /**
   * Least difference between two samples of the supply voltage.
   *
   * 1 to 1000 (mV); default 20.
   *
   * If wrong: Too small: a setup works in the simulation and chatters on the car.
   */
  supplyStepMv?: number | undefined;
  /**
   * Standard deviation of the noise on the supply voltage.
   *
   * 0 to 2000 (mV); default 15.
   *
   * 0: No noise.
   *
   * If wrong: Too small: a setup works in the simulation and chatters on the car.
   */
  supplyNoiseMv?: number | undefined;
  /**
   * Least difference between two samples of a motor’s current.
   *
   * 1 to 5000 (mA); default 20.
   *
   * If wrong: Too small: what is told from small currents works only in the simulation.
   */
  currentStepMa?: number | undefined;
  /**
   * Standard deviation of the noise on a motor’s current; brushes and PWM make it.
   *
   * 0 to 10000 (mA); default 30.
   *
   * 0: No noise.
   *
   * If wrong: Too small: what is told from small currents works only in the simulation.
   */
  currentNoiseMa?: number | undefined;
  /**
   * Reading of a current sensor without current.
   *
   * -5000 to 5000 (mA); default 0.
   *
   * 0: It reads 0.
   *
   * If wrong: A motor without load looks loaded, or a loaded one free.
   */
  currentOffsetMa?: number | undefined;
  /**
   * Least difference between two samples of the yaw rate.
   *
   * 1 to 1000 (mrad/s); default 1.
   *
   * If wrong: Too small: a simulated car holds its line better than yours.
   */
  gyroStepMradPerS?: number | undefined;
  /**
   * Standard deviation of the noise on the yaw rate.
   *
   * 0 to 2000 (mrad/s); default 10.
   *
   * 0: No noise.
   *
   * If wrong: Too small: a simulated car holds its line better than yours.
   */
  gyroNoiseMradPerS?: number | undefined;
  /**
   * Reading of the gyro at a standstill.
   *
   * -2000 to 2000 (mrad/s); default 0.
   *
   * 0: It reads 0.
   *
   * If wrong: The car pulls to one side wherever the gyro has a say.
   */
  gyroOffsetMradPerS?: number | undefined;
  /**
   * Least difference between two samples of a wheel’s speed.
   *
   * 1 to 10000 (deg/s); default 10.
   *
   * If wrong: Too fine: slip is found sooner in the simulation than in your car.
   */
  wheelStepDegPerS?: number | undefined;
  /**
   * Standard deviation of the noise in a sample of a wheel’s speed.
   *
   * 0 to 10000 (deg/s); default 10.
   *
   * 0: No noise.
   *
   * If wrong: Too small: slip is found sooner in the simulation than in your car.
   */
  wheelNoiseDegPerS?: number | undefined;
  /**
   * Age of every sample when the core gets it; at most 30 ticks.
   *
   * 0 to 250 (ms); default 0.
   *
   * 0: Samples are taken at the tick.
   *
   * If wrong: Too short: whatever acts on a sensor is calmer in the simulation than on the car.
   */
  delayMs?: number | undefined;
  /**
   * Share of samples that are missing.
   *
   * 0 to 100 (%); default 0.
   *
   * 0: None.
   *
   * If wrong: Too small: gaps on the bus surprise you on the car.
   */
  dropoutPercent?: number | undefined;
}

/** A floor: its friction and the shape of the tyre curve on it. */
export interface SurfaceInput {
  /**
   * Name by which setups refer to this surface.
   *
   * A text of 1 to 40 characters; required.
   *
   * If wrong: A setup that names a surface nobody described is refused.
   */
  name: string;
  /**
   * Where the numbers come from: a publication, a measurement of your own, or "assumption".
   *
   * A text of 1 to 500 characters; required.
   *
   * If wrong: A guess that looks like a measurement gets trusted like one.
   */
  source: string;
  /**
   * Greatest friction coefficient of your tyres on this floor: pull over weight.
   *
   * 0.05 to 2; required.
   *
   * If wrong: Too high: a simulated car corners and brakes harder than yours. Too low: it ploughs.
   */
  friction: number;
  /**
   * Low end of the range in which friction may lie: dust, damp, worn tyres.
   *
   * 0.05 to 2; required.
   *
   * If wrong: Too close to friction: you plan for a floor that is always at its best.
   */
  frictionLow: number;
  /**
   * High end of the range in which friction may lie: swept floor, fresh tyres.
   *
   * 0.05 to 2; required.
   *
   * If wrong: Too close to friction: a floor that grips more than planned for surprises you.
   */
  frictionHigh: number;
  /**
   * Shape of the tyre curve, F = mu Fz sin(C atan(B s - E (B s - atan(B s)))) with slip s; Magic
   * Formula, Pacejka, Tyre and Vehicle Dynamics, eq. 4.49.
   */
  tyre?: SurfaceTyre | undefined;
  /**
   * Rolling resistance: force to keep one wheel rolling over the load it carries.
   *
   * 0 to 0.5; default 0.03.
   *
   * 0: The wheels roll without loss.
   *
   * If wrong: Too low: top speed and coasting distance come out too long.
   */
  rollingResistance?: number | undefined;
  /**
   * Way a tyre rolls until most of its side force has built up; about one wheel radius.
   *
   * 1 to 500 (mm); default 20.
   *
   * If wrong: Too long: the car turns in late. Too short: it turns in sooner than a real tyre can.
   */
  relaxationLengthMm?: number | undefined;
}

/**
 * Shape of the tyre curve, F = mu Fz sin(C atan(B s - E (B s - atan(B s)))) with slip s; Magic
 * Formula, Pacejka, Tyre and Vehicle Dynamics, eq. 4.49.
 */
interface SurfaceTyre {
  /**
   * Stiffness factor B: how steeply the force rises with slip.
   *
   * 1 to 40; default 8.
   *
   * If wrong: Too high: the car answers at once and lets go early. Too low: it feels like sponge.
   */
  stiffnessB?: number | undefined;
  /**
   * Shape factor C: how far the force falls once the tyre slides. 1 = not at all.
   *
   * 1 to 2.5; default 1.4.
   *
   * If wrong: Too high: a slide is unforgiving. Too low: a slide costs no grip.
   */
  shapeC?: number | undefined;
  /**
   * Curvature factor E: how sharp the peak of the force is.
   *
   * -10 to 1; default 0.
   *
   * 0: The plain curve sin(C atan(B s)).
   *
   * If wrong: Far from the tyre: the slip at which grip is best lies in the wrong place.
   */
  curvatureE?: number | undefined;
}

/** All tuning constants of one vehicle for one surface. */
export interface SetupInput {
  /**
   * Name of this setup, as in reports and in --setup.
   *
   * A text of 1 to 40 characters; required.
   *
   * If wrong: Two setups of the same name cannot be told apart; they are refused.
   */
  name: string;
  /**
   * Name of the surface it is meant for; one of surfaces.ts.
   *
   * A text of 1 to 40 characters; required.
   *
   * If wrong: The best split differs by floor; a setup for carpet may spin on vinyl.
   */
  surface: string;
  /** From throttle stick to drive demand. */
  throttle?: SetupThrottle | undefined;
  /** From steering stick to steering command. */
  steering?: SetupSteering | undefined;
  /** What happens when the signal is lost. */
  link?: SetupLink | undefined;
  /** What it takes before the drive comes on. */
  arming?: SetupArming | undefined;
  /** How motor power is shared between inside and outside of a bend. */
  split?: SetupSplit | undefined;
  /**
   * What takes inside cut away when the gyro says that the car turns in too hard; pairs of motors.
   */
  yawAssist?: SetupYawAssist | undefined;
  /** How fast motor commands may change. */
  slew?: SetupSlew | undefined;
  /**
   * What is told from the motors’ currents, and what it brings about. Without sensors.current
   * nothing is looked for.
   */
  traction?: SetupTraction | undefined;
  /** The reduced-power switch for guests and children. */
  guest?: SetupGuest | undefined;
  /**
   * Time to cross-fade to this setup when it is chosen while driving.
   *
   * 0 to 10000 (ms); default 500.
   *
   * 0: The setup changes within one tick; slew still bounds every motor.
   *
   * If wrong: Too short: the car changes its habits in mid-bend. Too long: you judge the old setup.
   */
  fadeMs?: number | undefined;
}

/** From throttle stick to drive demand. */
interface SetupThrottle {
  /**
   * Share of the stick’s travel around its centre that counts as neutral.
   *
   * 1 to 30 (%); default 5.
   *
   * If wrong: Too small: a stick that rests off centre creeps, or never arms. Too large: a numb
   * start.
   */
  deadBandPercent?: number | undefined;
  /**
   * Share of cubic in the curve: (1 - e) x + e x^3.
   *
   * 0 to 100 (%); default 30.
   *
   * 0: A straight line.
   *
   * If wrong: Too much: nothing happens, then everything. Too little: no feel for a slow start.
   */
  expoPercent?: number | undefined;
  /**
   * Drive demand at full forward stick.
   *
   * 0 to 100 (%); default 100.
   *
   * 0: No drive forward.
   *
   * If wrong: Too high for the floor: wheelspin and a car too fast for the room.
   */
  forwardLimitPercent?: number | undefined;
  /**
   * Drive demand at full reverse stick.
   *
   * 0 to 100 (%); default 50.
   *
   * 0: No drive in reverse.
   *
   * If wrong: Too high: in reverse a front-steered car swings round at once.
   */
  reverseLimitPercent?: number | undefined;
  /**
   * Time constant of the low-pass on the stick.
   *
   * 0 to 1000 (ms); default 20.
   *
   * 0: No low-pass.
   *
   * If wrong: Too long: the drive lags behind the thumb. Too short: receiver jitter reaches the
   * gears.
   */
  smoothingMs?: number | undefined;
}

/** From steering stick to steering command. */
interface SetupSteering {
  /**
   * Share of the stick’s travel around its centre that counts as straight on.
   *
   * 0 to 30 (%); default 3.
   *
   * 0: Every movement of the stick steers.
   *
   * If wrong: Too small: the servo hums and the car wanders. Too large: no small corrections.
   */
  deadBandPercent?: number | undefined;
  /**
   * Share of cubic in the curve: (1 - e) x + e x^3.
   *
   * 0 to 100 (%); default 30.
   *
   * 0: A straight line.
   *
   * If wrong: Too much: the car turns in suddenly near full lock. Too little: twitchy on straights.
   */
  expoPercent?: number | undefined;
  /**
   * Steering command at full left stick, of full lock.
   *
   * 0 to 100 (%); default 100.
   *
   * 0: No steering to the left.
   *
   * If wrong: Too high: tyres rub or the servo stalls against its stop. Too low: wide bends.
   */
  leftLimitPercent?: number | undefined;
  /**
   * Steering command at full right stick, of full lock.
   *
   * 0 to 100 (%); default 100.
   *
   * 0: No steering to the right.
   *
   * If wrong: Too high: tyres rub or the servo stalls against its stop. Too low: wide bends.
   */
  rightLimitPercent?: number | undefined;
  /**
   * Time constant of the low-pass on the stick.
   *
   * 0 to 1000 (ms); default 0.
   *
   * 0: No low-pass.
   *
   * If wrong: Too long: you steer into a bend that is already over.
   */
  smoothingMs?: number | undefined;
  /**
   * Steepest change of the steering command; 100 % is centre to full lock.
   *
   * 10 to 10000 (%/s); default 600.
   *
   * If wrong: Too fast: the split runs ahead of the servo. Too slow: no catching of a slide.
   */
  ratePercentPerS?: number | undefined;
  /**
   * What is left of the steering at estimated top speed. 100 = no limit by speed.
   *
   * 10 to 100 (%); default 100.
   *
   * If wrong: Too high: one twitch at speed and the car is over. Too low: it will not go round
   * bends.
   */
  atTopSpeedPercent?: number | undefined;
}

/** What happens when the signal is lost. */
interface SetupLink {
  /**
   * The last valid inputs are held this long; then a controlled stop begins.
   *
   * 0 to 1000 (ms); default 300.
   *
   * 0: The first missing frame begins the stop.
   *
   * If wrong: Too long: a lost car drives on that much further. Too short: stops at every small
   * gap.
   */
  holdMs?: number | undefined;
  /**
   * Steering during the stop, of full lock, left positive; "hold" leaves it where it was.
   *
   * "hold" or -100 to 100 (%); default "hold".
   *
   * 0: Straight ahead.
   *
   * If wrong: A jump of the steering at speed upsets the car just when nobody has it in hand.
   */
  steeringOnLoss?: 'hold' | number | undefined;
}

/** What it takes before the drive comes on. */
interface SetupArming {
  /**
   * A fresh neutral throttle held this long arms the drive.
   *
   * 100 to 10000 (ms); default 500.
   *
   * If wrong: Too short: the car may start while somebody still holds it. Too long: only a wait.
   */
  neutralMs?: number | undefined;
  /**
   * The same after a latched fault.
   *
   * 500 to 30000 (ms); default 2000.
   *
   * If wrong: Too short: a hot motor or an empty pack is driven again at once.
   */
  rearmMs?: number | undefined;
}

/** How motor power is shared between inside and outside of a bend. */
interface SetupSplit {
  /**
   * Share of the geometric cut g = 1 - (R - t/2)/(R + t/2), R = wheelbase / tan(angle); with 100
   * the wheels turn as on a free differential.
   *
   * 0 to 200 (%); default 50.
   *
   * 0: No cut from geometry.
   *
   * If wrong: Too small: the car ploughs straight on. Too large: the tail comes round under power.
   */
  geometrySharePercent?: number | undefined;
  /**
   * Cut added at full lock on top of the geometric share.
   *
   * 0 to 100 (%); default 0.
   *
   * 0: Only the geometric share acts.
   *
   * If wrong: Too small: the car ploughs. Too large: it spins; the best value differs by floor.
   */
  cutAtFullLockPercent?: number | undefined;
  /**
   * Exponent of |steering| in the added cut. 1 = in proportion, 2 = mostly near full lock.
   *
   * 0.5 to 4 (exponent); default 1.
   *
   * If wrong: Too low: nervous around the centre. Too high: nothing, then a sudden turn near the
   * lock.
   */
  cutCurve?: number | undefined;
  /**
   * The inside cut never passes this.
   *
   * 0 to 100 (%); default 40.
   *
   * 0: No cut at all: both sides always get the same.
   *
   * If wrong: Too high: a mistake in the other fields can stop the inside wheel altogether.
   */
  cutCeilingPercent?: number | undefined;
  /**
   * Who keeps the demand in a bend: 0 the outside motor, 100 the mean of both sides.
   *
   * 0 to 100 (%); default 0.
   *
   * 0: The outside motor keeps the demand; the car loses speed in bends.
   *
   * If wrong: Too high: the outside wheel is driven harder in bends than on straights and breaks
   * loose.
   */
  meanSharePercent?: number | undefined;
  /**
   * Front command over rear command on a straight; only for layout "twoPairs".
   *
   * 0 to 100 (%); default 100.
   *
   * 0: Rear drive only.
   *
   * If wrong: Too high: the front pushes wide. Too low: the rear does all the work and slides.
   */
  frontSharePercent?: number | undefined;
  /**
   * Command of each track at full steering and no throttle; only for layout "tracked".
   *
   * 0 to 100 (%); default 0.
   *
   * 0: No turning on the spot.
   *
   * If wrong: Too high: the vehicle whips round and throws a track. Too low: it cannot turn on the
   * spot.
   */
  pivotPercent?: number | undefined;
  /**
   * Throttle at which the turn on the spot has faded out; only for layout "tracked".
   *
   * 0.1 to 100 (%); default 30.
   *
   * If wrong: Too low: a jolt when pulling away in a turn. Too high: one track turns back while
   * driving.
   */
  pivotFadePercent?: number | undefined;
}

/**
 * What takes inside cut away when the gyro says that the car turns in too hard; pairs of motors.
 */
interface SetupYawAssist {
  /**
   * By how much it may lower the inside cut at most. Beyond a cut of 0 it slows the outside motor
   * instead. Needs sensors.gyro and layout "pair" or "twoPairs".
   *
   * 0 to 60 (%); default 0.
   *
   * 0: No yaw assist.
   *
   * If wrong: Too small: it sees the tail come round and cannot stop it. Too large: wide bends.
   */
  authorityPercent?: number | undefined;
  /**
   * Cut taken away for each °/s the car yaws faster than it should.
   *
   * 0 to 15 (%/(deg/s)); default 1.
   *
   * 0: Only the integral acts.
   *
   * If wrong: Too small: it comes too late. Too large: the car twitches in bends.
   */
  gainPercentPerDegPerS?: number | undefined;
  /**
   * Cut taken away for each degree the car has turned too far, as long as it does.
   *
   * 0 to 15 (%/deg); default 0.5.
   *
   * 0: No integral.
   *
   * If wrong: Too small: a slow slide goes on. Too large: the car swings from side to side.
   */
  integralPercentPerDeg?: number | undefined;
  /**
   * Understeer gradient of the car it should be like: steering angle beyond Ackermann’s for each g
   * sideways, as "simulate --manoeuvre constant-radius" prints it.
   *
   * 0 to 30 (deg/g); default 0.
   *
   * 0: A car that follows its front wheels at any speed, up to gripG.
   *
   * If wrong: Too small: only gripG holds the car. Too large: it goes wide where it need not.
   */
  understeerDegPerG?: number | undefined;
  /**
   * What the floor bears sideways where it is slippery: at most the surface’s frictionLow. The car
   * shall not yaw faster than this over its speed.
   *
   * 0.05 to 3 (g); default 0.5.
   *
   * If wrong: Too high: on a slippery patch the tail is round before it acts. Too low: the car goes
   * wide on every floor.
   */
  gripG?: number | undefined;
}

/** How fast motor commands may change. */
interface SetupSlew {
  /**
   * Steepest rise of a motor’s magnitude; at most the vehicle’s riseCeilingPercentPerS.
   *
   * 5 to 10000 (%/s); default 300.
   *
   * If wrong: Too fast: wheelspin and stripped gears. Too slow: the car feels tied to a rubber
   * band.
   */
  risePercentPerS?: number | undefined;
  /**
   * Steepest fall of a motor’s magnitude while the throttle is eased.
   *
   * 5 to 10000 (%/s); default 600.
   *
   * If wrong: Too fast: lifting off in a bend upsets the car. Too slow: it runs on.
   */
  fallPercentPerS?: number | undefined;
  /**
   * Fall of a motor’s magnitude in a controlled stop; at least fallPercentPerS.
   *
   * 50 to 10000 (%/s); default 1000.
   *
   * If wrong: Too slow: a lost car goes on rolling under power. Too fast: the wheels lock and it
   * slides.
   */
  stopPercentPerS?: number | undefined;
  /**
   * Time at zero between forward and reverse; at least the vehicle’s limits.dwellMs.
   *
   * 0 to 1000 (ms); default 100.
   *
   * 0: Straight from one direction into the other.
   *
   * If wrong: Too short: shafts and bridges take the full shock of a reversal.
   */
  dwellMs?: number | undefined;
}

/**
 * What is told from the motors’ currents, and what it brings about. Without sensors.current nothing
 * is looked for.
 */
interface SetupTraction {
  /** A driven wheel breaks loose: it gains speed faster than its current explains. */
  spin?: SetupTractionSpin | undefined;
  /**
   * The drive of a side is lost, as when a shaft slips: its current stays at no-load while load is
   * due. It stays until re-armed: check the shafts. Also a lost front drive, where frontDrive is
   * "averaged" and motor.heat "twoBody", or wheel speeds are measured: told from straight starts at
   * half throttle or more, within two or three of them, once two have been learnt from since the
   * setup came into force. findWithinMs and falseAlarmsPerHour do not move that: they reckon with
   * noise from tick to tick, while starts differ by floor and tyres.
   */
  free?: SetupTractionFree | undefined;
  /** A motor is held fast: stall current without speed. */
  jam?: SetupTractionJam | undefined;
  /**
   * What "trim" leaves of the command of the motor whose wheel has broken loose.
   *
   * 0 to 100 (%); default 60.
   *
   * 0: That motor is switched off while its wheel spins.
   *
   * If wrong: Too high: the wheel spins on. Too low: the car swerves to that side.
   */
  trimPercent?: number | undefined;
  /**
   * No motor is driven harder than this under "limp".
   *
   * 0 to 100 (%); default 40.
   *
   * 0: The car stands until re-armed.
   *
   * If wrong: Too high: no protection. Too low: no way home.
   */
  limpCapPercent?: number | undefined;
  /**
   * Time from nothing back to the full command after "cut", and of letting go of "trim".
   *
   * 10 to 10000 (ms); default 600.
   *
   * If wrong: Too short: the wheel breaks loose again at once. Too long: the car feels dead.
   */
  rampMs?: number | undefined;
  /**
   * A finding stays at least this long after the last sign of it.
   *
   * 0 to 10000 (ms); default 150.
   *
   * 0: It goes as soon as its signs go.
   *
   * If wrong: Too short: the reaction chatters. Too long: power stays away when the wheel grips.
   */
  holdMs?: number | undefined;
}

/** A driven wheel breaks loose: it gains speed faster than its current explains. */
interface SetupTractionSpin {
  /**
   * "report" only tells; "trim" leaves that motor trimPercent while it lasts; "cut" takes all
   * motors to nothing and brings them back over rampMs; "limp" caps all motors at limpCapPercent,
   * and "stop" stops, until re-armed. Anything but "off" and "report" needs sensors.current.
   *
   * "off" or "report" or "trim" or "cut" or "limp" or "stop"; default "report".
   *
   * If wrong: "cut" or more where the floor lets every start spin: the car jerks or gives up.
   */
  reaction?: 'off' | 'report' | 'trim' | 'cut' | 'limp' | 'stop' | undefined;
  /**
   * Mean time in which it is found. Together with falseAlarmsPerHour it says how small a deviation
   * is found at all: half the time needs one about 1.4 times as large.
   *
   * 10 to 2000 (ms); default 40.
   *
   * If wrong: Too short: only gross spins are found. Too long: the wheel has dug in by then.
   */
  findWithinMs?: number | undefined;
  /**
   * Mean number of alarms an hour that pure sensor noise may raise; what the motor’s constants may
   * be wrong by is allowed for besides: motor.modelErrorPercent.
   *
   * 0.0001 to 60 (1/h); default 0.05.
   *
   * If wrong: Too high: alarms that mean nothing. Too low: found later, or only when it is gross.
   */
  falseAlarmsPerHour?: number | undefined;
}

/**
 * The drive of a side is lost, as when a shaft slips: its current stays at no-load while load is
 * due. It stays until re-armed: check the shafts. Also a lost front drive, where frontDrive is
 * "averaged" and motor.heat "twoBody", or wheel speeds are measured: told from straight starts at
 * half throttle or more, within two or three of them, once two have been learnt from since the
 * setup came into force. findWithinMs and falseAlarmsPerHour do not move that: they reckon with
 * noise from tick to tick, while starts differ by floor and tyres.
 */
interface SetupTractionFree {
  /**
   * "report" only tells; "limp" caps all motors at limpCapPercent, and "stop" stops, until
   * re-armed. Anything but "off" and "report" needs sensors.current.
   *
   * "off" or "report" or "limp" or "stop"; default "report".
   *
   * If wrong: "report" with nobody watching: one side pulls, and the loose shaft eats its gear.
   */
  reaction?: 'off' | 'report' | 'limp' | 'stop' | undefined;
  /**
   * Mean time in which it is found. Together with falseAlarmsPerHour it says how small a deviation
   * is found at all: half the time needs one about 1.4 times as large.
   *
   * 10 to 2000 (ms); default 200.
   *
   * If wrong: Too short: rolling downhill counts as a lost drive. Too long: the gear suffers.
   */
  findWithinMs?: number | undefined;
  /**
   * Mean number of alarms an hour that pure sensor noise may raise; what the motor’s constants may
   * be wrong by is allowed for besides: motor.modelErrorPercent.
   *
   * 0.0001 to 60 (1/h); default 0.05.
   *
   * If wrong: Too high: alarms that mean nothing. Too low: found later, or only when it is gross.
   */
  falseAlarmsPerHour?: number | undefined;
}

/** A motor is held fast: stall current without speed. */
interface SetupTractionJam {
  /**
   * "report" only tells; "cut" takes all motors to nothing and brings them back over rampMs; "stop"
   * stops until re-armed. Anything but "off" and "report" needs sensors.current.
   *
   * "off" or "report" or "cut" or "stop"; default "report".
   *
   * If wrong: "report" only: the motor heats until motor.stallTimeMs has passed.
   */
  reaction?: 'off' | 'report' | 'cut' | 'stop' | undefined;
  /**
   * Mean time in which it is found. Together with falseAlarmsPerHour it says how small a deviation
   * is found at all: half the time needs one about 1.4 times as large.
   *
   * 10 to 2000 (ms); default 100.
   *
   * If wrong: Too short: a heavy start counts as a jam. Too long: winding and gear suffer.
   */
  findWithinMs?: number | undefined;
  /**
   * Mean number of alarms an hour that pure sensor noise may raise; what the motor’s constants may
   * be wrong by is allowed for besides: motor.modelErrorPercent.
   *
   * 0.0001 to 60 (1/h); default 0.05.
   *
   * If wrong: Too high: alarms that mean nothing. Too low: found later, or only when it is gross.
   */
  falseAlarmsPerHour?: number | undefined;
}

/** The reduced-power switch for guests and children. */
interface SetupGuest {
  /**
   * No motor is driven harder than this while the guest switch is on.
   *
   * 0 to 100 (%); default 40.
   *
   * 0: Guests cannot drive.
   *
   * If wrong: Too high: a child drives a car that is too fast for the room.
   */
  capPercent?: number | undefined;
}
