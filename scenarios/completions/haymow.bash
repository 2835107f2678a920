# shellcheck shell=bash
# Completion of haymow's command line in bash. tests/options_agree.py compares it
# with the program's help.

_haymow() {
  local word=${COMP_WORDS[COMP_CWORD]} before=${COMP_WORDS[COMP_CWORD - 1]}
  local commands="ration offers winter stretch batch needs feeds check audit page new"
  local options="--format --output --color --units --verbose --quiet --force --help --version"

  # The command is the first word that is not an option.
  local command="" at
  for ((at = 1; at < COMP_CWORD; ++at)); do
    if [[ ${COMP_WORDS[at]} != -* && " $commands " == *" ${COMP_WORDS[at]} "* ]]; then
      command=${COMP_WORDS[at]}
      break
    fi
  done

  local words=""
  case $before in
    --format) words="text html sheet json" ;;
    --color) words="auto always never" ;;
    --units) words="metric us" ;;
    -o | --output | --write-program | --prices | --in | --only | --curves | --orders | --bills | --calendar | --base)
      mapfile -t COMPREPLY < <(compgen -f -- "$word")
      return
      ;;
    *)
      if [[ $word == -* ]]; then
        words=$options
        [[ $command != ration ]] || words+=" --as-if --confidence --exact --write-program"
        [[ $command != offers ]] || words+=" --without --with --only --price --limit --curves"
        [[ $command != offers ]] || words+=" --margin --mixes"
        [[ $command != winter ]] || words+=" --orders --bills --calendar --write-program"
        [[ $command != batch ]] || words+=" --base --jobs --full"
        [[ $command != page ]] || words+=" --port --no-browser"
        [[ $command != feeds ]] || words+=" --sources --prices --explain --in"
      elif [[ -z $command ]]; then
        words=$commands
      elif [[ $command == batch ]]; then
        mapfile -t COMPREPLY < <(compgen -d -S / -- "$word"; compgen -f -X '!*.json*' -- "$word")
        return
      elif [[ $command != feeds && $command != new ]]; then
        mapfile -t COMPREPLY < <(compgen -d -S / -- "$word"; compgen -f -X '!*.y*ml' -- "$word")
        return
      fi
      ;;
  esac
  mapfile -t COMPREPLY < <(compgen -W "$words" -- "$word")
}

complete -o filenames -F _haymow haymow
