/** How a line is broken up. */
export type TraceStyle = 'solid' | 'dashed' | 'dotted';
