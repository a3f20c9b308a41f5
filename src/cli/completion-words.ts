import { Command, type Option } from 'commander';
import type { Verb } from './verb.js';

/** What follows an option: nothing, a file, one of some words, or a text of the maker's own. */
export interface OptionWords {
  readonly flag: string;
  readonly summary: string;
  readonly takes: 'nothing' | 'file' | 'text' | readonly string[];
}

/** A verb as a shell has to know it. */
export interface VerbWords {
  readonly name: string;
  readonly summary: string;
  /** Words its first operand may be; empty when it takes files or words of the maker's own. */
  readonly steps: readonly string[];
  readonly files: boolean;
  readonly options: readonly OptionWords[];
}

export const SHELLS = ['bash', 'zsh', 'fish'] as const;
export type Shell = (typeof SHELLS)[number];

/** Operands of these names are not files. */
const OTHERS = /^[<[](?:step|action|shell|material|property|pour)\b/;

/** The verbs' own data turned into words, so that a shell never knows a verb or an option that is not there. */
export const verbWords = (verbs: readonly Verb[]): readonly VerbWords[] =>
  verbs.map((verb) => {
    const command = new Command();
    verb.options(command);
    const [name = '', ...operands] = verb.usage.split(' ');
    return {
      name,
      summary: verb.summary,
      steps: stepsOf(operands[0], verb.summary),
      files: operands.some((operand) => !OTHERS.test(operand)),
      options: command.options.map(optionWords),
    };
  });

/** The steps of a verb stand in its summary: "init: write a shop file; check: look it over". */
function stepsOf(operand: string | undefined, summary: string): readonly string[] {
  if (operand === '<shell>') return SHELLS;
  if (operand !== '<step>' && operand !== '<action>') return [];
  return summary.split('; ').flatMap((part) => /^([a-z]+): /.exec(part)?.[1] ?? []);
}

const optionWords = ({ long, description, required, flags, argChoices }: Option): OptionWords => ({
  flag: long!,
  summary: description,
  takes: !required ? 'nothing' : (argChoices ?? (/<file/.test(flags) ? 'file' : 'text')),
});
