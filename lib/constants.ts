/** Number of points of a table over |steering| from 0 to full lock. */
export const TABLE_POINTS = 17;

/**
 * What the laptop bakes and the hub holds: integers only. `vehicle` is indexed by `V`, each
 * setup by `S`; `crc` is CRC-32 over all of them in that order.
 */
export interface Constants {
  vehicle: number[];
  setups: number[][];
  crc: number;
}

/** Index of each vehicle constant. Unit in the comment; 0 means what the comment says. */
export const enum V {
  /** Version of this layout of constants. */
  FORMAT = 0,
  /** See Layout. */
  LAYOUT = 1,
  /** Number of motors, 1, 2 or 4. */
  MOTORS = 2,
  /** Nominal time between ticks, ms. */
  TICK_MS = 3,
  /** Ticks further apart than this are a loss of signal, ms. */
  GAP_MS = 4,
  /** Throttle pulse at full reverse, rest and full forward, µs, then 1 = reversed channel. */
  THROTTLE_LOW_US = 5,
  THROTTLE_CENTRE_US = 6,
  THROTTLE_HIGH_US = 7,
  THROTTLE_REVERSED = 8,
  /** Steering pulse at one lock, centre and the other lock, µs, then 1 = reversed channel. */
  STEER_LOW_US = 9,
  STEER_CENTRE_US = 10,
  STEER_HIGH_US = 11,
  STEER_REVERSED = 12,
  /** A pulse this far outside its calibration is invalid, µs. */
  PULSE_MARGIN_US = 13,
  /** 1 = this vehicle measures its supply voltage. */
  HAS_SUPPLY = 14,
  /** 1 = this vehicle measures each motor's current. */
  HAS_CURRENT = 15,
  /** 1 = this vehicle has a yaw-rate gyro. */
  HAS_GYRO = 16,
  /** Full command never means more than this voltage, mV; 0 = not compensated. */
  SUPPLY_REFERENCE_MV = 17,
  /** Derating begins here, mV. */
  SUPPLY_WARN_MV = 18,
  /** Derating is greatest here, mV. */
  SUPPLY_LOW_MV = 19,
  /** Below this for SUPPLY_CUT_MS the drive is stopped, mV; 0 = never. */
  SUPPLY_CUT_MV = 20,
  /** The supply must rise by this before derating is eased, mV. */
  SUPPLY_HYSTERESIS_MV = 21,
  SUPPLY_CUT_MS = 22,
  /** What is left of the drive at SUPPLY_LOW_MV, permille. */
  SUPPLY_FLOOR = 23,
  /** Resistance of winding, leads and bridge of one motor, mOhm. */
  MOTOR_MOHM = 24,
  /** Current ceiling of one motor, mA; 0 = none. */
  CURRENT_LIMIT_MA = 25,
  /** Current that a motor at standstill draws is told by this share of V d / R, permille. */
  STALL_SHARE = 26,
  /** Below this current a motor does not count as stalled, mA. */
  STALL_MIN_MA = 27,
  /** A motor stalled this long is stopped, ms; 0 = never. */
  STALL_MS = 28,
  /** Heat capacity of the winding, mJ/K; 0 = no heat model. */
  WINDING_MJ_K = 29,
  /** Conductance winding to housing, mW/K. */
  WINDING_MW_K = 30,
  /** Heat capacity of the housing, mJ/K; 0 = the housing stays at ambient temperature. */
  HOUSING_MJ_K = 31,
  /** Conductance housing to ambient, mW/K. */
  HOUSING_MW_K = 32,
  /** Resistance rise per kelvin, ppm. */
  COPPER_PPM_K = 33,
  /** Winding rise over ambient where derating begins, K. */
  HEAT_WARN_K = 34,
  /** Winding rise over ambient where the drive is stopped, K. */
  HEAT_LIMIT_K = 35,
  /** Winding and housing rise assumed at power-up, K. */
  HEAT_START_K = 36,
  /** Cap while a sensor the vehicle has gives no sample, permille. */
  BLIND_CAP = 37,
  /** Steepest rise of any command the gate lets pass, permille a tick. */
  GATE_RISE = 38,
  /** Ticks the gate keeps a motor at zero between directions. */
  GATE_DWELL = 39,
  /** Time constant from command to speed, ms. */
  SPEED_LAG_MS = 40,
  /** Supply voltage assumed while none is measured, mV. */
  SUPPLY_NOMINAL_MV = 41,
  /** 1 = this vehicle measures the speed of each motor's wheel. */
  HAS_WHEEL_SPEED = 42,
  /** Back-EMF of a motor over speed of its tyre, µV per mm/s; 0 = unknown, traction is off. */
  EMF_UV = 43,
  /** Drive force of a motor at its tyres over current, mN/A. */
  THRUST_MN_A = 44,
  /** Current that turns a motor and its gear without load, mA. */
  NO_LOAD_MA = 45,
  /** Mass of the vehicle, g. */
  MASS_G = 46,
  /** Rolling resistance of the vehicle, mN. */
  DRAG_MN = 47,
  /**
   * At full lock, without slip: excess speed of the outside wheel over the mean, permille of it.
   */
  SIDE_LEAD = 48,
  /** Curvature of the path at full lock without slip, 1/km. */
  CURVATURE = 49,
  /** Speed at full command on a straight, mm/s. */
  TOP_SPEED_MM_S = 50,
  /** Greatest error of one sample of current: step, noise and offset together, mA. */
  CURRENT_ERROR_MA = 51,
  /** By how much MOTOR_MOHM, EMF_UV and THRUST_MN_A may be wrong, permille. */
  MODEL_ERROR = 52,
  /** Tyre circumference over one degree of the wheel's turn, µm. */
  WHEEL_UM_DEG = 53,
  /** 1 = the front axle turns at the mean of both rear sides. */
  FRONT_AVERAGED = 54,
  /** Inertia of what one motor turns, itself included, referred to the ground, g. */
  ROTATING_G = 55,
  /**
   * TABLE_POINTS each, 1/10000: path radius of the inside front wheel over that of the inside rear
   * wheel, and of the outside front wheel over that of the outside rear wheel (layout TWO_PAIRS).
   */
  FRONT_INSIDE = 56,
  FRONT_OUTSIDE = 73,
  COUNT = 90,
}

/** Index of each setup constant. */
export const enum S {
  /** Within this share of the stick's travel the throttle is neutral, permille. */
  THROTTLE_DEAD_BAND = 0,
  /** Share of cubic in the throttle curve, permille. */
  THROTTLE_EXPO = 1,
  /** Command at full forward and full reverse stick, permille. */
  FORWARD_LIMIT = 2,
  REVERSE_LIMIT = 3,
  /** Time constant of the low-pass on the throttle, ms; 0 = none. */
  THROTTLE_SMOOTHING_MS = 4,
  STEER_DEAD_BAND = 5,
  STEER_EXPO = 6,
  /** Command at full left and full right stick, permille of full lock. */
  LEFT_LIMIT = 7,
  RIGHT_LIMIT = 8,
  STEER_SMOOTHING_MS = 9,
  /** Steepest change of the steering command, permille/s. */
  STEER_RATE = 10,
  /** What is left of the steering at top speed, permille. */
  STEER_AT_SPEED = 11,
  /** The last valid inputs are held this long, ms. */
  HOLD_MS = 12,
  /** Steering after a loss of signal, permille of full lock; STEER_HOLD = where it was. */
  LOSS_STEER = 13,
  /** A fresh neutral throttle held this long arms, ms. */
  NEUTRAL_MS = 14,
  /** The same after a latched fault, ms. */
  REARM_MS = 15,
  /** Rates of a motor's magnitude, permille/s. */
  RISE = 16,
  FALL = 17,
  STOP = 18,
  /** Time at zero between directions, ms. */
  DWELL_MS = 19,
  /** The inside cut never passes this, permille. */
  CUT_CEILING = 20,
  /** 0 = the outside motor keeps the demand; 1000 = the mean of both keeps it; permille between. */
  MEAN_SHARE = 21,
  /** Front command over rear command on a straight, permille (layout TWO_PAIRS). */
  FRONT_SHARE = 22,
  /** Command of each track at full steering and no throttle, permille (layout TRACKED). */
  PIVOT = 23,
  /** Throttle at which the pivot has faded out, permille. */
  PIVOT_FADE = 24,
  /** Cap while the guest input is on, permille. */
  GUEST_CAP = 25,
  /** Time to cross-fade to this setup, ms. */
  FADE_MS = 26,
  /** What each finding brings about; see Reaction. */
  SPIN_REACTION = 27,
  FREE_REACTION = 28,
  JAM_REACTION = 29,
  /** Reference value k and decision interval h of each finding's CUSUM, 1/100 sigma. */
  SPIN_K = 30,
  SPIN_H = 31,
  FREE_K = 32,
  FREE_H = 33,
  JAM_K = 34,
  JAM_H = 35,
  /** A finding stays at least this long, ms. */
  FOUND_HOLD_MS = 36,
  /** What Reaction.TRIM leaves of a motor's command, permille. */
  TRIM = 37,
  /** Cap on every motor under Reaction.LIMP, permille. */
  LIMP_CAP = 38,
  /** Time to come back from nothing to the full command after Reaction.RAMP, ms. */
  RAMP_MS = 39,
  /** By how much yaw assist may lower the inside cut at most, permille; 0 = no yaw assist. */
  YAW_AUTHORITY = 40,
  /** Cut taken away over excess of yaw rate, permille per rad/s, and per rad (its integral). */
  YAW_GAIN = 41,
  YAW_INTEGRAL_GAIN = 42,
  /** Understeer of the reference vehicle as EG / L = 1 / v_ch^2, 1/10000 s^2/m^2. */
  YAW_UNDERSTEER = 43,
  /**
   * Lateral acceleration the surface bears; the reference yaw rate is capped by it over v, mm/s^2.
   */
  YAW_GRIP_MM_S2 = 44,
  /** TABLE_POINTS of inside cut over |steering|, 1/10000. */
  CUT_TABLE = 45,
  COUNT = 62,
}

/** Value of S.LOSS_STEER that means: leave the steering where it was. */
export const STEER_HOLD = 2000;

/** Value of V.FORMAT this core reads. */
export const FORMAT = 2;
