import { type Layout, MISSING } from '../../lib/index.ts';
import type { Panel, Trace } from '../report/report-data.ts';
import { createTraceBuilder, isWorthDrawing } from '../report/trace-builder.ts';
import type { TraceStyle } from '../report/trace-style.ts';
import { motorNames } from '../runs/run-columns.ts';
import { CUT_RANGE } from './cut-range.ts';
import type { ReplayedTick } from './replay.ts';
import { In, Out } from './row-layout.ts';

/** Gathers what a report draws while a replay runs, in memory that does not grow with the run. */
export interface ReplayTraces {
  observe(tick: ReplayedTick): void;
  finish(): { timeS: number[]; panels: Panel[] };
}

/** Most points on the time axis of a report: a screen's width several times over. */
const MOST_POINTS = 12000;

/** What a trace takes from a tick; null = no sample. */
type Reading = (tick: ReplayedTick) => number | null;

interface TracePlan {
  label: string;
  read: Reading;
  style?: TraceStyle;
  hue?: number;
}

interface PanelPlan {
  title: string;
  unit: string;
  range?: [number, number];
  /** Left out where it is zero all the time: this vehicle or setup has nothing of the kind. */
  isOptional?: boolean;
  traces: TracePlan[];
}

/**
 * @param names of the setups, where two are compared; the second is drawn dashed
 * @param recorded true = the run holds drive commands of its own, drawn dotted
 */
export function createReplayTraces(
  layout: Layout,
  names: readonly string[],
  recorded: boolean,
): ReplayTraces {
  const motors = motorNames(layout);
  const plans = [
    sticks(),
    ...corePanels(names),
    drivePanel(motors, names, recorded),
    ...findingPanels(names),
    ...sensorPanels(motors),
  ];
  const traces = plans.flatMap((plan) => plan.traces);
  const builder = createTraceBuilder(traces.length, MOST_POINTS);
  const values: (number | null)[] = traces.map(() => null);

  return {
    observe(tick) {
      traces.forEach((trace, i) => {
        values[i] = trace.read(tick);
      });
      builder.push(tick.atS, values);
    },
    finish() {
      const { timeS, traces: gathered } = builder.finish();
      let next = 0;
      const panels = plans.flatMap(({ traces: planned, isOptional = false, ...panel }): Panel[] => {
        const drawn = planned.map(({ read: _, ...trace }): Trace => {
          const points = gathered[next++]!;
          return { ...trace, values: points };
        });
        return isWorthDrawing(drawn, isOptional) ? [{ ...panel, traces: drawn }] : [];
      });
      return { timeS, panels };
    },
  };
}

function sticks(): PanelPlan {
  return {
    title: 'Sticks as received',
    unit: 'µs',
    traces: [
      { label: 'throttle', read: input(In.THROTTLE) },
      { label: 'steering', read: input(In.STEER) },
    ],
  };
}

/** A trace for each setup that is compared. */
function tracesOf(names: readonly string[]) {
  return (label: string, at: number, scale: number): TracePlan[] =>
    names.length < 2
      ? [{ label, read: output(at, scale) }]
      : [
          { label: `${label}, ${names[0]}`, read: output(at, scale), style: 'solid' },
          { label: `${label}, ${names[1]}`, read: otherOutput(at, scale), style: 'dashed' },
        ];
}

function corePanels(names: readonly string[]): PanelPlan[] {
  const both = tracesOf(names);
  return [
    {
      title: 'Demand and steering command',
      unit: '%',
      range: [-105, 105],
      traces: [...both('demand', Out.DEMAND, 10), ...both('steering, left +', Out.STEER, 10)],
    },
    {
      title: 'Inside cut, and what voltage and protection leave',
      unit: '%',
      range: CUT_RANGE,
      traces: [
        ...both('inside cut', Out.CUT, 10),
        ...both('left by voltage and protection', Out.LIMIT, 10),
      ],
    },
  ];
}

function findingPanels(names: readonly string[]): PanelPlan[] {
  const both = tracesOf(names);
  return [
    {
      title: 'Speed as the core estimates it',
      unit: 'm/s',
      traces: both('speed', Out.SPEED, 1000),
    },
    {
      title: 'Confidence of findings',
      unit: '%',
      range: [-2, 102],
      isOptional: true,
      traces: [
        ...both('spin', Out.SPIN, 10),
        ...both('lost drive', Out.FREE, 10),
        ...both('jam', Out.JAM, 10),
      ],
    },
    {
      title: 'Change of the cut by yaw assist',
      unit: '%',
      isOptional: true,
      traces: both('change of cut, more +', Out.ASSIST, 10),
    },
  ];
}

function drivePanel(
  motors: readonly string[],
  names: readonly string[],
  recorded: boolean,
): PanelPlan {
  const traces = motors.flatMap((motor, i): TracePlan[] => {
    const label = motor.replace('_', ' ');
    const at = Out.DRIVE + i;
    const own: TracePlan = { label, read: output(at, 10), hue: i, style: 'solid' };
    if (names.length >= 2) {
      const other = { read: otherOutput(at, 10), hue: i, style: 'dashed' as const };
      return [
        { ...own, label: `${label}, ${names[0]}` },
        { ...other, label: `${label}, ${names[1]}` },
      ];
    }
    const column = `drive_${motor}_permille`;
    const logged: Reading = ({ chunk, row }) => sample(chunk.columns.get(column)?.[row], 10);
    const dotted = {
      label: `${label}, as recorded`,
      read: logged,
      hue: i,
      style: 'dotted' as const,
    };
    return recorded ? [own, dotted] : [own];
  });
  return { title: 'Motor commands', unit: '%', range: [-105, 105], traces };
}

function sensorPanels(motors: readonly string[]): PanelPlan[] {
  return [
    {
      title: 'Motor currents',
      unit: 'A',
      traces: motors.map((motor, i) => ({
        label: motor.replace('_', ' '),
        read: input(In.CURRENT + i, 1000),
      })),
    },
    { title: 'Supply', unit: 'V', traces: [{ label: 'supply', read: input(In.BATTERY, 1000) }] },
    {
      title: 'Yaw rate',
      unit: '°/s',
      traces: [{ label: 'yaw rate, left +', read: input(In.YAW_RATE, (1000 * Math.PI) / 180) }],
    },
    { title: 'Age of the input', unit: 'ms', traces: [{ label: 'age', read: input(In.AGE) }] },
  ];
}

function input(at: number, scale = 1): Reading {
  return (tick) => sample(tick.inputs[tick.inputAt + at], scale);
}

function output(at: number, scale: number): Reading {
  return (tick) => tick.outputs[tick.outputAt + at]! / scale;
}

function otherOutput(at: number, scale: number): Reading {
  return (tick) => tick.against![tick.outputAt + at]! / scale;
}

function sample(value: number | undefined, scale: number): number | null {
  return value === undefined || value === MISSING ? null : value / scale;
}
