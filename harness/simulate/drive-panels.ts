import { type Layout, MISSING } from '../../lib/index.ts';
import type { Trace as DriveTrace } from '../metrics/trace.ts';
import { CUT_RANGE } from '../replay/cut-range.ts';
import { In, inputWidth, Out, outputWidth } from '../replay/row-layout.ts';
import type { Panel, Trace } from '../report/report-data.ts';
import { decimate, isWorthDrawing } from '../report/trace-builder.ts';
import type { TraceStyle } from '../report/trace-style.ts';
import { motorNames } from '../runs/run-columns.ts';
import { spoken, WHEEL_NAMES } from '../words/part-names.ts';
import type { SimulationResult } from './simulate.ts';

/** A drive and the name of the setup it was driven with. */
export interface NamedDrive {
  name: string;
  result: SimulationResult;
}

/** How the setups of one report are told apart, in their order. */
export const SETUP_STYLES: readonly TraceStyle[] = ['solid', 'dashed', 'dotted'];

/** Most points on the time axis of a report. */
const MOST_POINTS = 12_000;

/**
 * What a report draws over time. Drives must begin with lead-ins of one length, so that their
 * ticks fall together; where one ended early, there is a gap.
 */
export function drivePanels(
  layout: Layout,
  drives: readonly NamedDrive[],
): { timeS: number[]; panels: Panel[] } {
  const plans = [...corePlans(layout), ...carPlans(), ...sensorPlans(layout)];
  const longest = drives.reduce((a, b) => (b.result.trace.count > a.result.trace.count ? b : a));
  const timeS = [...longest.result.trace.t];
  const all = plans.flatMap((plan) =>
    plan.lines.flatMap((line, hue) => drives.map((drive, i) => traceOf(line, hue, drive, i))),
  );
  const set = decimate(
    { timeS, traces: all.map(({ values }) => pad(values, timeS.length)) },
    MOST_POINTS,
  );
  let next = 0;
  const panels = plans.flatMap(({ lines, isOptional = false, ...panel }): Panel[] => {
    const drawn = lines
      .flatMap(() => drives)
      .map((): Trace => {
        const { label, style, hue } = all[next]!;
        return { label, style, hue, values: set.traces[next++]! };
      });
    return isWorthDrawing(drawn, isOptional) ? [{ ...panel, traces: drawn }] : [];
  });
  return { timeS: set.timeS, panels };

  function traceOf(line: Line, hue: number, drive: NamedDrive, i: number) {
    const label = drives.length === 1 ? line.label : `${line.label}, ${drive.name}`;
    const values = Array.from({ length: drive.result.trace.count }, (_, row) =>
      line.read(drive.result, row),
    );
    return { label, style: SETUP_STYLES[i]!, hue, values };
  }
}

/** One line of a panel for each drive; null = no sample. */
interface Line {
  label: string;
  read: (result: SimulationResult, row: number) => number | null;
}

interface PanelPlan {
  title: string;
  unit: string;
  range?: [number, number];
  /** Left out where it is zero all the time. */
  isOptional?: boolean;
  lines: Line[];
}

const DEGREES = 180 / Math.PI;
const WHEELS = WHEEL_NAMES.map(spoken);

function corePlans(layout: Layout): PanelPlan[] {
  const motors = motorNames(layout).map((motor, i) =>
    output(motor.replace('_', ' '), Out.DRIVE + i),
  );
  return [
    {
      title: 'Sticks as received',
      unit: 'µs',
      lines: [input('throttle', In.THROTTLE), input('steering', In.STEER)],
    },
    {
      title: 'Demand and steering command',
      unit: '%',
      range: [-105, 105],
      lines: [output('demand', Out.DEMAND), output('steering, left +', Out.STEER)],
    },
    {
      title: 'Inside cut, and what voltage and protection leave',
      unit: '%',
      range: CUT_RANGE,
      lines: [output('inside cut', Out.CUT), output('left by voltage and protection', Out.LIMIT)],
    },
    { title: 'Motor commands', unit: '%', range: [-105, 105], lines: motors },
    {
      title: 'Confidence of findings, and change of the cut by yaw assist',
      unit: '%',
      isOptional: true,
      lines: [
        output('spin', Out.SPIN),
        output('lost drive', Out.FREE),
        output('jam', Out.JAM),
        output('change of cut, more +', Out.ASSIST),
      ],
    },
  ];
}

const SPEEDS = [
  car('speed', (t, i) => t.speed[i]!),
  output('as the core estimates it', Out.SPEED, 1000),
];

function carPlans(): PanelPlan[] {
  return [
    { title: 'Speed over ground', unit: 'm/s', lines: SPEEDS },
    {
      title: 'Yaw rate',
      unit: '°/s',
      lines: [
        car('of the car, left +', (t, i) => t.yawRate[i]! * DEGREES),
        input('by the gyro', In.YAW_RATE, 1000 / DEGREES),
      ],
    },
    {
      title: 'Sideslip',
      unit: '°',
      lines: [car('of the centre of gravity, left +', (t, i) => t.sideslip[i]! * DEGREES)],
    },
    {
      title: 'Balance',
      unit: '°',
      lines: [car('understeer +, oversteer −', (t, i) => t.balance[i]! * DEGREES)],
    },
    {
      title: 'Wheel slip, spinning +, locking −',
      unit: '%',
      range: [-105, 105],
      lines: WHEELS.map((wheel, w) => car(wheel, (t, i) => t.slipRatio[w]![i]! * 100)),
    },
  ];
}

function sensorPlans(layout: Layout): PanelPlan[] {
  const motors = motorNames(layout).map((motor) => motor.replace('_', ' '));
  return [
    {
      title: 'Motor currents',
      unit: 'A',
      lines: motors.map((motor, m) => car(motor, (t, i) => t.current[m]![i]!)),
    },
    {
      title: 'Supply',
      unit: 'V',
      lines: [
        car('at the terminals', (t, i) => t.supply[i]!),
        input('by the sensor', In.BATTERY, 1000),
      ],
    },
    {
      title: 'Winding temperatures',
      unit: '°C',
      lines: motors.map((motor, m) => car(motor, (t, i) => t.winding[m]![i]!)),
    },
    { title: 'Age of the input', unit: 'ms', lines: [input('age', In.AGE)] },
  ];
}

function car(label: string, read: (trace: DriveTrace, row: number) => number): Line {
  return { label, read: ({ trace }, row) => read(trace, row) };
}

function input(label: string, at: number, scale = 1): Line {
  return {
    label,
    read: ({ rows }, row) => {
      const value = rows.inputs[row * inputWidth(rows.motors) + at]!;
      return value === MISSING ? null : value / scale;
    },
  };
}

/** Most outputs are in permille, and drawn in percent. */
function output(label: string, at: number, scale = 10): Line {
  return {
    label,
    read: ({ rows }, row) => rows.outputs[row * outputWidth(rows.motors) + at]! / scale,
  };
}

function pad(values: readonly (number | null)[], length: number): (number | null)[] {
  return Array.from({ length }, (_, i) => values[i] ?? null);
}
