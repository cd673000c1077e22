import type { AnyNode, Program } from 'acorn';
import { generate } from 'astring';
import { chainSteps } from './chain-steps.ts';
import { cloneMakers } from './clone-makers.ts';
import { compoundSteps } from './compound-steps.ts';
import { dropCopies } from './copies.ts';
import { countDown } from './count-down.ts';
import { dropContinues } from './drop-continues.ts';
import { dropDead } from './drop-dead.ts';
import { dropFields } from './drop-fields.ts';
import { dropUnused } from './drop-unused.ts';
import { fold } from './fold.ts';
import { hoistFields } from './hoist-fields.ts';
import { inlineCalls } from './inline-calls.ts';
import { inlineExpressions } from './inline-expressions.ts';
import { joinBranches } from './join-branches.ts';
import { joinSteps } from './join-steps.ts';
import { localise } from './localise.ts';
import { magnitudes } from './magnitudes.ts';
import { mergeFunctions } from './merge-functions.ts';
import { mergeRecords } from './merge-records.ts';
import { nameGlobals } from './name-globals.ts';
import { nameLiterals } from './name-literals.ts';
import { nameRatios } from './name-ratios.ts';
import { negate } from './negate.ts';
import { outline } from './outline.ts';
import { packState } from './pack-state.ts';
import { placeFunctions } from './place-functions.ts';
import { propagate } from './propagate.ts';
import { type Known, putKnown } from './put-known.ts';
import { readThrough } from './read-through.ts';
import { renameApart } from './rename-apart.ts';
import { rollSteps } from './roll-steps.ts';
import { dropSameArguments } from './same-arguments.ts';
import { scatterArrays } from './scatter-arrays.ts';
import { scatterRecords } from './scatter-records.ts';
import { settleCreation } from './settle-creation.ts';
import { shareChecks } from './share-checks.ts';
import { shareLists } from './share-lists.ts';
import { shareNames } from './share-names.ts';
import { sinkFunctions } from './sink-functions.ts';
import { sinkSteps } from './sink-steps.ts';
import { splitClamps } from './split-clamps.ts';
import { testTruths } from './test-truths.ts';
import { namesApart } from './tree.ts';
import { trimLists } from './trim-lists.ts';
import { trimTables } from './trim-tables.ts';
import { unrollLoops } from './unroll-loops.ts';
import { gatherVariables, spreadVariables } from './variables.ts';

/** How to specialise a script. */
export interface SpecialiseOptions {
  /** What is known when it is built; absent = names are told apart, and nothing else is done. */
  known?: Known | undefined;
  /** Names of globals, which stay as they are. */
  globals: readonly string[];
  /** Names of fields that are used from outside; absent = any may be. */
  fields?: readonly string[] | undefined;
  /** What speed may cost; default: next to nothing. */
  room?: Room | undefined;
}

/** What speed may cost in size. */
export interface Room {
  /** Characters that the code may grow by for each loop that is written out. */
  loop: number;
  /**
   * Places that may get longer for one that is passed in each call, when state is kept in an array;
   * 0 = state stays in variables. See pack-state.ts.
   */
  places: number;
  /** true = what lives on from call to call is fetched once a call; see localise.ts. */
  fetch?: boolean;
  /** true = numbers that come often get names; see name-literals.ts. */
  names?: boolean;
  /** true = ratios are worked out once, where state stays in variables; see name-ratios.ts. */
  ratios?: boolean;
  /** true = less text, whatever that costs in time; see `shorten`. */
  small?: boolean;
}

const LITTLE: Room = { loop: 0, places: 1 };

/** A specialised script. */
export interface Specialised {
  code: string;
  /** The same before variables came to share names: each name still tells its module. */
  apart: string;
  /** The modules it was bundled from; see `moduleOf` in rename-apart.ts. */
  modules: readonly string[];
}

/**
 * Rewrites a bundled ES5 script for speed and size, with the same results to the last bit: known
 * numbers in place of array elements, branches never taken dropped, functions called once moved to
 * where they are called, records that stay inside made variables, variables made local.
 *
 * It relies on the house style of lib/ and targets/: no `this`, no getters, nothing read before it
 * is written, no function called again before it has returned. tests/engines holds every kind of
 * bundle to the bits of the source.
 */
export function specialise(
  code: string,
  { known, globals, fields, room = LITTLE }: SpecialiseOptions,
): Specialised {
  const renamed = renameApart(code, globals);
  const program = spreadVariables(renamed.program);
  const done =
    known === undefined
      ? program
      : nameGlobals(
          rewrite(hoistFields(program), passesFor(known, fields, room), room, fields),
          globals,
        );
  const shared = known === undefined ? program : shareNames(done);
  return {
    apart: generate(spell(done)),
    code: generate(spell(shared)),
    modules: renamed.modules,
  };
}

/** The shortest way to write the same steps. */
function spell(program: Program): Program {
  return compoundSteps(chainSteps(gatherVariables(program)));
}

type Pass = (program: Program) => Program;

/** What is done in each round; each makes work for the others. */
function passesFor(known: Known, fields: readonly string[] | undefined, room: Room): Pass[] {
  // For each pass that can tell by a node that nothing is left to do in it, those it looked at.
  const [put, folded, kept] = [new Set<AnyNode>(), new Set<AnyNode>(), new Set<AnyNode>()];
  return [
    (program) => putKnown(program, known, put),
    (program) => fold(program, folded),
    propagate,
    (program) => dropUnused(program, kept),
    settleCreation,
    (program) => cloneMakers(program, room.small !== true),
    sinkFunctions,
    mergeRecords,
    dropSameArguments,
    scatterRecords,
    scatterArrays,
    inlineCalls,
    inlineExpressions,
    ...(fields ? [(program: Program) => dropFields(program, new Set(fields))] : []),
  ];
}

/** Far more than it takes. */
const MOST_ROUNDS = 100;

function rewrite(
  program: Program,
  passes: readonly Pass[],
  room: Room,
  fields: readonly string[] | undefined,
): Program {
  let now = settle(program, passes);
  for (;;) {
    const unrolled = unrollLoops(now, room.loop, room.small);
    if (unrolled === now) break;
    now = settle(unrolled, passes);
  }
  const own = localise(trimLists(namesApart(trimTables(now))), room.fetch !== false);
  const local = dropUnused(dropDead(joinSteps(dropUnused(own))));
  const short = testTruths(negate(namesApart(local)));
  const packed = room.places > 0 ? packState(short, room.places) : short;
  const ratios = room.ratios === true && room.places === 0 ? nameRatios(packed) : packed;
  const whole = room.small === true ? shorten(ratios, fields) : ratios;
  const named = room.names === true ? shareLists(nameLiterals(whole, room.small)) : whole;
  return room.small === true ? placeFunctions(named) : named;
}

/** What makes less text of the same steps, but more work of them. */
function shorten(program: Program, fields: readonly string[] | undefined): Program {
  const checked = shareChecks(readThrough(program), fields);
  const read = joinSteps(dropUnused(dropCopies(checked)));
  const bounded = splitClamps(magnitudes(rollSteps(countDown(dropContinues(read)))));
  const outlined = joinBranches(outline(joinBranches(bounded)));
  return mergeFunctions(sinkSteps(joinSteps(outlined)));
}

/** Goes round until no pass changes anything; each gives back the same tree where it does not. */
function settle(program: Program, passes: readonly Pass[]): Program {
  /** For each pass the tree that it left as it was. */
  const left: (Program | undefined)[] = [];
  let now = program;
  for (let round = 0; round < MOST_ROUNDS; round++) {
    const before = now;
    passes.forEach((pass, i) => {
      if (left[i] === now) return;
      const next = pass(now);
      if (next === now) left[i] = now;
      now = next;
    });
    if (now === before) return now;
  }
  throw new Error('the passes of `specialise` do not come to an end');
}
