# shellcheck shell=bash
# The Debian packages haymow needs, in three lists, and how the missing ones are
# fetched. Not a program: scenarios/try, tests/run and .ci/run source it.

# To build the program.
# shellcheck disable=SC2034  # used by the scripts that source this file
build_packages=(
  cmake ninja-build g++
  libglpk-dev libeigen3-dev libyaml-cpp-dev libspdlog-dev libfmt-dev libcli11-dev
  nlohmann-json3-dev libkainjow-mustache-dev libjs-chart.js libcpp-httplib-dev
)

# Besides, to build and run the tests. The other solvers check our answers; the
# last line shares records out to test hosts that the test itself starts and ends.
# shellcheck disable=SC2034
test_packages=(
  libgtest-dev libgmock-dev librapidcheck-dev
  glpk-utils coinor-clp coinor-cbc lp-solve
  python3 python3-scipy python3-jsonschema python3-yaml python3-icalendar
  parallel openssh-client openssh-server slurm-client slurmctld slurmd munge
)

# Besides, for the gates of .ci/run.
# shellcheck disable=SC2034
check_packages=(
  git clang clang-format clang-tidy shellcheck man-db dpkg-dev file
  libbenchmark-dev coinor-libclp-dev
  chromium chromium-driver python3-selenium poppler-utils
)

# Prints those of the packages named that are not installed, one a line.
missing_packages() {
  local package
  for package in "$@"; do
    dpkg-query -W -f '${db:Status-Status}\n' "$package" 2>/dev/null | grep -qx installed ||
      printf '%s\n' "$package"
  done
}

# Installs those of the packages named that are missing; quick when none is.
# Returns 1, having said what to do, when it cannot.
need_packages() {
  if ! command -v apt-get >/dev/null || ! command -v dpkg-query >/dev/null; then
    printf 'This system has no apt-get. Install these by its own means (Debian names):\n' >&2
    printf '    %s\n' "$*" >&2
    printf 'then build by hand: DEVELOPERS.md has the commands.\n' >&2
    return 1
  fi

  local missing
  mapfile -t missing < <(missing_packages "$@")
  if ((${#missing[@]} == 0)); then
    printf 'All %d packages needed are installed.\n' "$#"
    return 0
  fi

  local as_root=()
  if ((EUID != 0)); then
    if ! command -v sudo >/dev/null; then
      printf 'Packages are missing, and installing them takes an administrator. Run, as root:\n' >&2
      printf '    apt-get install %s\n' "${missing[*]}" >&2
      return 1
    fi
    as_root=(sudo)
  fi

  printf 'Installing what is missing: %s\n' "${missing[*]}"
  local apt=("${as_root[@]}" env DEBIAN_FRONTEND=noninteractive
    apt-get -q -y -o Acquire::Retries=3 -o DPkg::Lock::Timeout=120)
  local attempt
  for attempt in 1 2 3; do
    if "${apt[@]}" update && "${apt[@]}" install --no-install-recommends "${missing[@]}"; then
      return 0
    fi
    printf 'Installing did not work (attempt %d of 3).\n' "$attempt" >&2
    ((attempt == 3)) || sleep $((5 * attempt))
  done
  return 1
}
