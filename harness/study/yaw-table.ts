import type { YawRow, YawVerdict } from './judge-yaw.ts';

/** The verdict as text, a line a manoeuvre. */
export function yawTable({ rows, all, lifted, limit, stuck, goals }: YawVerdict): string {
  const lines = [...rows, all].map(lineOf);
  return [
    'Spread of balance over friction ±25 %, mean of the bends; greatest sideslip of all drives',
    '',
    HEAD,
    ...lines,
    '',
    'The throttle let go in a bend that a driver holds; the goal of sideslip is theirs too',
    ...lifted.map(lineOf),
    '',
    ...aboutLimit(limit),
    `Stuck gyro: ${stuck.drives} drives, yaw assist at work in ${stuck.acting}; from 300 ms on ` +
      `the cut was changed by ${stuck.after / 10} % at most and differed by ` +
      `${stuck.difference / 10} % at most from that without.`,
    '',
    ...goals.map(
      ({ goal, measured, isMet }) => `${isMet ? 'met   ' : 'MISSED'} ${goal}: ${measured}`,
    ),
  ].join('\n');
}

function aboutLimit(rows: readonly YawRow[]): string[] {
  if (rows.length === 0) return [];
  return [
    'No goal’s: the sticks held at the limit of grip, then the throttle let go. A car that has not',
    'spun until then is faster, and braked by its motors it slides from more speed',
    ...rows.map(
      (row) =>
        `${lineOf(row)}  at ${row.speedWith.toFixed(2)} m/s, ` +
        `without ${row.speedWithout.toFixed(2)}`,
    ),
    '',
  ];
}

const HEAD =
  `${'manoeuvre'.padEnd(18)}${'bends'.padStart(6)}${'without'.padStart(9)}${'with'.padStart(8)}` +
  `${'ratio'.padStart(7)}${'halved'.padStart(8)}${'sideslip'.padStart(11)}${'with'.padStart(8)}` +
  `${'worst rise'.padStart(12)}${'risen'.padStart(7)}`;

function lineOf(row: YawRow): string {
  const { spreadWithout, spreadWith } = row;
  return (
    `${row.name.padEnd(18)}${String(row.bends).padStart(6)}` +
    `${`${spreadWithout.toFixed(2)}°`.padStart(9)}${`${spreadWith.toFixed(2)}°`.padStart(8)}` +
    `${(spreadWith / spreadWithout).toFixed(2).padStart(7)}` +
    `${`${row.halved.toFixed(0)} %`.padStart(8)}` +
    `${`${row.sideslipWithout.toFixed(1)}°`.padStart(11)}` +
    `${`${row.sideslipWith.toFixed(1)}°`.padStart(8)}` +
    `${`${row.worstRise.toFixed(2)}°`.padStart(12)}${String(row.risen).padStart(7)}`
  );
}
