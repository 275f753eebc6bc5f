# Sourced by the other scripts. Installs Debian packages that are missing and gives the .NET SDK a place to write.

# need PACKAGE CHECK...: remembers the package when the check fails.
missing=()
need() {
    local package=$1
    shift
    "$@" >/dev/null 2>&1 || missing+=("$package")
}

install_missing() {
    [[ ${#missing[@]} -gt 0 ]] || return 0
    if [[ $(id -u) -ne 0 ]] || ! command -v apt-get >/dev/null; then
        echo "Missing: ${missing[*]}. Install with: sudo apt-get install --no-install-recommends ${missing[*]}" >&2
        echo "Then run this again." >&2
        exit 1
    fi
    echo "Installing ${missing[*]} ..." >&2
    export DEBIAN_FRONTEND=noninteractive
    apt-get install -y -qq --no-install-recommends "${missing[@]}" >/dev/null 2>&1 && return 0
    # The package lists may be absent or old.
    if ! { apt-get update -qq && apt-get install -y -qq --no-install-recommends "${missing[@]}"; } >&2; then
        echo "The packages ${missing[*]} could not be installed; see above. Install them by hand and run this again." >&2
        exit 1
    fi
}

need_compiler_and_libraw() {
    need gcc command -v gcc
    need libc6-dev test -e /usr/include/stdio.h
    need libraw-dev test -e /usr/include/libraw/libraw.h
}

# The SDK and its package cache want a home folder that can be written.
ready_dotnet() {
    if ! command -v dotnet >/dev/null; then
        echo "The .NET 10 SDK is missing: install it so that 'dotnet --version' answers 10.0.100 or later, then run this again." >&2
        exit 1
    fi
    if [[ -z ${HOME:-} || ! -w ${HOME:-} ]]; then
        export HOME=$root/build/home
        mkdir -p "$HOME"
    fi
    export DOTNET_CLI_HOME=${DOTNET_CLI_HOME:-$HOME}
    export DOTNET_NOLOGO=1 DOTNET_CLI_TELEMETRY_OPTOUT=1 DOTNET_CLI_WORKLOAD_UPDATE_NOTIFY_DISABLE=true
    export DOTNET_SKIP_FIRST_TIME_EXPERIENCE=1 DOTNET_GENERATE_ASPNET_CERTIFICATE=false
    # A build must not leave servers behind that hold the machine's memory.
    export DOTNET_CLI_USE_MSBUILD_SERVER=0 MSBUILDDISABLENODEREUSE=1 UseSharedCompilation=false
}
