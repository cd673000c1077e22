import { type Constants, Flag, MISSING, S, V } from '../../lib/index.ts';
import type { Finding } from '../report/report-data.ts';
import { motorNames } from '../runs/run-columns.ts';
import { In } from './row-layout.ts';

/** Finds the sensors that a vehicle has, and of which a run holds no sample. */
export interface SensorWatch {
  /** @param inputs the tick's row begins at `at` */
  observe(inputs: Int32Array, at: number): void;
  /** A sentence at the beginning for each kind of sensor that gave no sample, and for the link. */
  finish(): Finding[];
  /** The flags of the core that those sentences say already: bits of Flag. */
  said(): number;
}

/** @param constants what is driven with */
export function createSensorWatch({ vehicle, setups }: Constants): SensorWatch {
  const names = motorNames(vehicle[V.LAYOUT]!);
  const cap = `the blind cap of ${vehicle[V.BLIND_CAP]! / 10} % is on`;
  const assists = setups.some((setup) => setup[S.YAW_AUTHORITY]! > 0);
  const kinds = [
    {
      field: 'sensors.supply',
      isFitted: vehicle[V.HAS_SUPPLY] === 1,
      columns: [column('battery_mv', In.BATTERY)],
      costs: 'low supply goes unseen',
      answer: cap,
      flag: Flag.SENSOR_LOST,
    },
    {
      field: 'sensors.current',
      isFitted: vehicle[V.HAS_CURRENT] === 1,
      columns: names.map((name, i) => column(`current_${name}_ma`, In.CURRENT + i)),
      costs: 'no finding, current ceiling, stall time or heat',
      answer: cap,
      flag: Flag.SENSOR_LOST,
    },
    {
      field: 'sensors.gyro',
      isFitted: vehicle[V.HAS_GYRO] === 1,
      columns: [column('yaw_rate_mrad_s', In.YAW_RATE)],
      costs: assists ? 'there is no yaw assist' : 'no setup on board heeds it',
      isHeeded: assists,
      flag: Flag.GYRO_DOUBT,
    },
    {
      field: 'sensors.wheelSpeed',
      isFitted: vehicle[V.HAS_WHEEL_SPEED] === 1,
      columns: names.map((name, i) => column(`wheel_${name}_deg_s`, In.CURRENT + names.length + i)),
      costs: 'speed is told by currents alone, if at all',
    },
  ]
    .filter(({ isFitted }) => isFitted)
    .map((kind): Kind => ({ isHeeded: true, flag: 0, ...kind }));
  let silent = kinds.flatMap(({ columns }) => columns);
  let ticks = 0;
  let aged = false;

  function observe(inputs: Int32Array, at: number): void {
    ticks++;
    if (inputs[at + In.AGE] !== 0) aged = true;
    if (silent.length > 0) silent = silent.filter((each) => inputs[at + each.at] === MISSING);
  }

  function finish(): Finding[] {
    if (ticks === 0) return [];
    const ageless: Finding = { atS: 0, severity: 'note', text: AGELESS };
    const silences = kinds.flatMap(({ field, columns, costs, answer, isHeeded }): Finding[] => {
      const lost = columns.filter(isSilent).map(({ name }) => name);
      if (lost.length === 0) return [];
      const listed = lost.join(', ');
      const what = lost.length < columns.length ? `${costs} for that motor` : costs;
      const more = answer === undefined ? '' : `; ${answer}`;
      const text = `The run holds no sample of ${listed}, though ${field} is true: ${what}${more}.`;
      return [{ atS: 0, severity: isHeeded ? 'warning' : 'note', text }];
    });
    return aged || ticks < SOME ? silences : [ageless, ...silences];
  }

  function said(): number {
    return kinds.reduce((all, kind) => all | (kind.columns.some(isSilent) ? kind.flag : 0), 0);
  }

  function isSilent(column: Kind['columns'][number]): boolean {
    return ticks > 0 && silent.includes(column);
  }

  return { observe, finish, said };
}

const AGELESS =
  'No tick has an input_age_ms other than 0: a link that fell silent shows by missing pulses ' +
  'alone.';
/** Ticks in which a link is sure to be between two frames. */
const SOME = 100;

interface Kind {
  field: string;
  columns: { name: string; at: number }[];
  /** What is lost with it. */
  costs: string;
  /** What the core does about it. */
  answer?: string;
  /** What it flags as long as that lasts, bits of Flag. */
  flag: number;
  /** true = something is driven by it. */
  isHeeded: boolean;
}

function column(name: string, at: number): Kind['columns'][number] {
  return { name, at };
}
