import { type OptionWords, type Shell, type VerbWords, verbWords } from './completion-words.js';
import type { Verb } from './verb.js';

/** A script that teaches a shell the verbs and their options. */
export function completionScript(shell: Shell, verbs: readonly Verb[]): string {
  const words = verbWords(verbs);
  return { bash, zsh, fish }[shell](words);
}

/** One shell word, whatever it holds. */
const quoted = (text: string): string => `'${text.replaceAll("'", `'\\''`)}'`;
const list = (words: readonly string[]): string => quoted(words.join(' '));

const names = (verbs: readonly VerbWords[]): string[] => verbs.map((v) => v.name);
const flagsOf = ({ options }: VerbWords): string[] => [...options.map((o) => o.flag), '--help'];

/** Options whose word a shell has to know, each once: what follows is the same for every verb. */
function followed(verbs: readonly VerbWords[]): OptionWords[] {
  const all = verbs.flatMap((v) => v.options).filter((o) => o.takes !== 'nothing');
  return all.filter((o, i) => all.findIndex((other) => other.flag === o.flag) === i);
}

function bash(verbs: readonly VerbWords[]): string {
  const values = followed(verbs).map(({ flag, takes }) => {
    const reply =
      typeof takes === 'string'
        ? takes === 'file'
          ? 'compgen -f -- "$cur"'
          : 'true'
        : `compgen -W ${list(takes)} -- "$cur"`;
    return `    ${flag}) mapfile -t COMPREPLY < <(${reply}); return ;;`;
  });
  const cases = verbs.map((verb) => {
    return `    ${verb.name}) steps=${list(verb.steps)} flags=${list(flagsOf(verb))} files=${verb.files ? 1 : 0} ;;`;
  });
  return `# pourwright: completion for bash. Put this line into ~/.bashrc: source <(pourwright complete bash)
_pourwright() {
  local cur=\${COMP_WORDS[COMP_CWORD]} prev=\${COMP_WORDS[COMP_CWORD-1]} steps='' flags='' files=0
  COMPREPLY=()
  if ((COMP_CWORD == 1)); then
    mapfile -t COMPREPLY < <(compgen -W ${list([...names(verbs), '--help', '--version'])} -- "$cur")
    return
  fi
  case $prev in
${values.join('\n')}
  esac
  case \${COMP_WORDS[1]} in
${cases.join('\n')}
  esac
  if [[ $cur == -* ]]; then
    mapfile -t COMPREPLY < <(compgen -W "$flags" -- "$cur")
  elif [[ -n $steps ]] && ((COMP_CWORD == 2)); then
    mapfile -t COMPREPLY < <(compgen -W "$steps" -- "$cur")
  elif ((files)); then
    mapfile -t COMPREPLY < <(compgen -f -- "$cur")
  fi
}
complete -o filenames -F _pourwright pourwright
`;
}

function zsh(verbs: readonly VerbWords[]): string {
  /** Inside brackets and after a colon zsh reads signs of its own. */
  const plain = (text: string): string => text.replace(/[[\]:\\]/g, (sign) => `\\${sign}`);
  const option = ({ flag, summary, takes }: OptionWords): string => {
    const value =
      takes === 'nothing'
        ? ''
        : takes === 'file'
          ? ':file:_files'
          : takes === 'text'
            ? ':text: '
            : `:word:(${takes.join(' ')})`;
    return quoted(`*${flag}[${plain(summary)}]${value}`);
  };
  const verb = (v: VerbWords): string => {
    const operands = [
      ...(v.steps.length > 0 ? [quoted(`1:step:(${v.steps.join(' ')})`)] : []),
      ...(v.files ? [quoted('*:file:_files')] : []),
    ];
    return `    ${v.name}) _arguments ${[...v.options.map(option), quoted('--help[print this help]'), ...operands].join(' ')} ;;`;
  };
  return `#compdef pourwright
# pourwright: completion for zsh. Write it where zsh looks: pourwright complete zsh > "\${fpath[1]}/_pourwright"
_pourwright() {
  local -a verbs
  verbs=(${verbs.map((v) => quoted(`${v.name}:${plain(v.summary)}`)).join(' ')})
  if ((CURRENT == 2)); then
    _describe verb verbs
    return
  fi
  local verb=$words[2]
  shift words
  ((CURRENT--))
  case $verb in
${verbs.map(verb).join('\n')}
  esac
}
if [[ $funcstack[1] == _pourwright ]]; then
  _pourwright "$@"
elif ((\${+functions[compdef]})); then
  compdef _pourwright pourwright
fi
`;
}

function fish(verbs: readonly VerbWords[]): string {
  const line = (...parts: string[]): string => ['complete -c pourwright', ...parts].join(' ');
  /** Within single quotes fish knows but these two. */
  const text = (words: string): string => `'${words.replace(/[\\']/g, (sign) => `\\${sign}`)}'`;
  const within = (v: VerbWords): string => `-n ${text(`__fish_seen_subcommand_from ${v.name}`)}`;
  const value = ({ takes }: OptionWords): string =>
    takes === 'nothing' ? '' : takes === 'file' ? '-r -F' : takes === 'text' ? '-x' : `-x -a ${text(takes.join(' '))}`;
  const first = verbs.map((v) => line('-n __fish_use_subcommand', '-f', `-a ${v.name}`, `-d ${text(v.summary)}`));
  const rest = verbs.flatMap((v) => [
    ...(v.files ? [] : [line(within(v), '-f')]),
    ...(v.steps.length > 0 ? [line(within(v), `-a ${text(v.steps.join(' '))}`)] : []),
    ...v.options.map((o) => line(within(v), `-l ${o.flag.slice(2)}`, value(o), `-d ${text(o.summary)}`)),
  ]);
  return `# pourwright: completion for fish. Write it where fish looks:
#   pourwright complete fish > ~/.config/fish/completions/pourwright.fish
${[...first, ...rest].join('\n')}
`;
}
