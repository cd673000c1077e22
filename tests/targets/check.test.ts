import { describe, expect, it } from 'vitest';
import { checkBundle } from '../../targets/build/check.ts';
import { withHeader } from '../../targets/build/header.ts';
import { generic } from '../../targets/generic/manifest.ts';
import type { Variant } from '../../targets/manifest.ts';
import { sampleBundle } from './sample-bundle.ts';

/** A bundle whose code, from line 2 on, is given. */
function wrap(code: string, variant: Variant = 'core', setups = ['hall']): string {
  const header = { version: '0.1.0', target: 'generic', variant, setups, constants: '00000000' };
  return withHeader(header, code);
}

/** Each construct, the rule that must find it, and words of the replacement it must name. */
const FORBIDDEN: [construct: string, rule: string, instead: string][] = [
  ['Math.floor(x);', 'unknown-name', 'use + - * /, comparison and baked tables'],
  ['x = Math.PI;', 'unknown-name', 'baked tables'],
  ['new Date();', 'unknown-name', 'read nowMs'],
  ['Date.now();', 'unknown-name', 'read nowMs'],
  ['JSON.stringify(x);', 'unknown-name', 'hand on integers'],
  ['Object.freeze(x);', 'unknown-name', 'assign plain fields'],
  ['Object.defineProperty(x, "y", {});', 'unknown-name', 'assign plain fields'],
  ['new Array(8);', 'unknown-name', 'write a literal or push()'],
  ['Array(8);', 'unknown-name', 'write a literal or push()'],
  ['new Float64Array(8);', 'unknown-name', 'use an array of numbers'],
  ['new Uint8Array(8);', 'unknown-name', 'use an array of numbers'],
  ['new Uint8ClampedArray(8);', 'unknown-name', 'use an array of numbers'],
  ['new BigInt64Array(8);', 'unknown-name', 'use an array of numbers'],
  ['new DataView(x);', 'unknown-name', 'use an array of numbers'],
  ['x = arguments;', 'unknown-name', 'name the parameters'],
  ['eval(x);', 'unknown-name', 'write it out'],
  ['x = NaN;', 'unknown-name', 'x - x === 0'],
  ['x = Infinity;', 'unknown-name', 'x - x === 0'],
  ['isFinite(x);', 'unknown-name', 'x - x === 0'],
  ['parseInt(x);', 'unknown-name', 'keep to integers'],
  ['Number(x);', 'unknown-name', 'typeof x === "number"'],
  ['String(x);', 'unknown-name', 'hand on integers'],
  ['throw new Error();', 'unknown-name', 'set a cause'],
  ['console.log(x);', 'unknown-name', 'hand it in as a port'],
  ['print(x);', 'unknown-name', 'hand it in as a port'],
  ['setTimeout(f, 10);', 'unknown-name', 'count ticks'],
  ['somethingElse(x);', 'unknown-name', 'declare it, or hand it in as a port'],
  ['forgotten = 1;', 'unknown-name', 'declare it'],
  ['x = .07;', 'decimal', 'ratio of integers, 7 / 100'],
  ['x = 1.5;', 'decimal', 'ratio of integers'],
  ['x = 2.0;', 'decimal', 'ratio of integers'],
  ['x = 1e3;', 'decimal', 'ratio of integers'],
  ['x = 017;', 'octal', 'without the leading 0'],
  ['x = 9007199254740993;', 'integer-range', 'keep integers below'],
  ['x = /a/;', 'regex', 'compare numbers'],
  ['x = [1, , 2];', 'array-hole', 'write every element'],
  ['x[x.length] = 1;', 'write-past-end', 'use push()'],
  ['x = { get y() { return 1; } };', 'accessor', 'a plain field'],
  ['x = { set y(v) {} };', 'accessor', 'a plain field'],
  ['for (var k in x) f(k);', 'for-in', 'count over an array'],
  ['delete x.y;', 'delete', 'set the field to 0'],
  ['with (x) f();', 'with', 'name the record'],
  ['debugger;', 'debugger', 'take it out'],
  ['x = this;', 'this', 'capture a variable'],
  ['a: for (;;) { for (;;) continue a; }', 'labelled-continue', 'use a flag'],
  ['if (x) { function g() {} }', 'function-in-block', 'top of the function'],
  ['try { f(); } catch (e) {} try { f(); } catch (e) {}', 'catch-name', 'one try a function'],
  ['x = x == 1;', 'loose-equality', '==='],
  ['x = x != 1;', 'loose-equality', '!=='],
  ['x = x + "ms";', 'text', 'hand on integers'],
  ['x += "ms";', 'text', 'hand on integers'],
  ['x = +x;', 'to-number', "typeof x === 'number'"],
  ['x = "7" * 1;', 'to-number', "typeof x === 'number'"],
  ['x = x.toFixed(2);', 'method', 'add it to the ports'],
  ['x.forEach(f);', 'method', 'add it to the ports'],
  ['x = x.charCodeAt(0);', 'method', 'add it to the ports'],
  ['x[0]();', 'computed-call', 'by its name'],
  ['later(); function later() {}', 'used-above', 'declare it first'],
  ['function r() { r(); }', 'recursion', 'bounded loop'],
  ['function p() { q(); } function q() { p(); }', 'recursion', 'bounded loop'],
  ['__assign(x, x);', 'helper', 'no classes, spread or generators'],
  ['let y = 1;', 'es5', 'let the build lower it'],
  ['x = () => 1;', 'es5', 'let the build lower it'],
  ['x = `a`;', 'es5', 'let the build lower it'],
  ['x = "\u00b5s";', 'ascii', '\\uXXXX'],
];

describe('the gate names each construct, its line and what to write instead', () => {
  it.each(FORBIDDEN)('%s', (construct, rule, instead) => {
    const code = `var axlewright = {};\n(function (x, f) {\n${construct}\n})();\n`;
    const findings = checkBundle(wrap(code), generic);
    const found = findings.find((one) => one.rule === rule);
    expect(found, JSON.stringify(findings)).toBeDefined();
    expect(found!.line).toBe(4);
    expect(found!.message).toContain(instead);
  });
});

describe('the gate lets pass what every engine does alike', () => {
  it.each([
    'x = 7 / 100;',
    'x = 4294967296 - 3988292384;',
    'x = x === 1 ? 2 : 3;',
    'x = x | 0; x ^= x >>> 8; x = ~x;',
    'x.push(1); x[0] = 1; x = [1, 2, 3];',
    'x = typeof x === "number";',
    'try { f(); } catch (e) { x = e; }',
    'function a() { try { f(); } catch (e) {} } ' +
      'function b() { try { f(); } catch (e) {} } a(); b();',
    'for (var i = 0; i < 4; i++) { if (x) continue; x = i; }',
    'a: for (;;) break a;',
    'var r = { step: f }; r.step(1);',
    'x = x.nowMs();',
    'x = undefined; x = void 0;',
    'function up() { return down(); } function down() { return 1; } up();',
    'switch (x) { case 1: f(); break; default: f(); }',
  ])('%s', (code) => {
    expect(checkBundle(wrap(`(function (x, f) {\n${code}\n})();\n`), generic)).toEqual([]);
  });
});

describe('the gate holds header and bytes', () => {
  it('refuses a changed byte, and a file without header', () => {
    const good = wrap('var axlewright = {};\n');
    expect(checkBundle(good, generic)).toEqual([]);
    expect(checkBundle(good.replace('{}', '[]'), generic)[0]).toMatchObject({
      rule: 'header',
      line: 1,
    });
    expect(checkBundle('var axlewright = {};\n', generic)[0]!.message).toContain(
      'axlewright build',
    );
  });

  it('refuses what is larger than the manifest allows, by variant and setups', () => {
    const most = generic.maxBytes.core;
    const further = generic.maxBytesPerFurtherSetup;
    const sized = (bytes: number, setups: string[]) => {
      const header = wrap('', 'core', setups).length;
      return wrap(`${' '.repeat(bytes - header - 1)}\n`, 'core', setups);
    };
    expect(checkBundle(sized(most, ['hall']), generic)).toEqual([]);
    const tooBig = checkBundle(sized(most + 1, ['hall']), generic);
    expect(tooBig).toHaveLength(1);
    expect(tooBig[0]!.message).toContain(`${most + 1} bytes, the generic hub takes ${most}`);
    expect(checkBundle(sized(most + further, ['hall', 'wet']), generic)).toEqual([]);
    expect(checkBundle(sized(most + further + 1, ['hall', 'wet']), generic)).toHaveLength(1);
    expect(checkBundle(sized(most + 1, ['hall']), generic, { measure: false })).toEqual([]);
  });
});

describe('the sources of lib and targets pass the gate', () => {
  // A minified bundle's warnings are those of its readable form, too.
  it.each(['core', 'full'] as const)('%s', async (variant) => {
    const { warnings, bytes, code } = await sampleBundle({ variant, minify: true });
    expect(warnings).toEqual([]);
    expect(bytes).toBe(Buffer.byteLength(code));
    expect(checkBundle(code, generic)).toEqual([]);
  });
});
