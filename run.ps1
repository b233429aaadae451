# Starts the program on Windows; the first time it sets everything up.
# Written by the side of `run` and never yet tried on a Windows machine.
#
#   .\run.ps1                     opens the window
#   .\run.ps1 facts JOB           one command of the program; .\run.ps1 --help lists them
#   .\run.ps1 tests               every check; with arguments only pytest, given these
#   .\run.ps1 benchmarks          measured speeds
#   .\run.ps1 guide               the user's guide as pages, into build/guide
#   .\run.ps1 types               a second type checker's opinion
#
# Needs a Python from 3.12 to 3.15, 64 bit, and a package registry. All that is fetched goes into
# the folder .venv beside this file, and no more of it than the command needs: figures, cutting
# plans and papers do without the libraries of the window. Ends with 3 when the set-up cannot be
# finished. The lock files are written anew with `run`, on another system.

$ErrorActionPreference = 'Stop'
$root = $PSScriptRoot
$venv = Join-Path $root '.venv'
$python = Join-Path $venv 'Scripts\python.exe'
$log = Join-Path $root '.venv-set-up.log'
$words = @($args)
if ($words.Count -eq 0) { $words = @('window') }
$command = $words[0]
$rest = @($words | Select-Object -Skip 1)
$wants = 'commands'
if ($command -in @('window', 'picture', 'photo', 'offer')) { $wants = 'desktop' }
if ($command -in @('tests', 'benchmarks', 'guide', 'types')) { $wants = 'tools' }

function Say([string] $text) { [Console]::Error.WriteLine($text) }

function Give-Up([string] $text) {
    Say $text
    exit 3
}

# Prints the program environments are made with, when this Python is one we can serve.
$suitable = @'
import sys
if not ((3, 12) <= sys.version_info[:2] <= (3, 15) and sys.maxsize > 2**32): sys.exit(1)
if sys.implementation.name != 'cpython': sys.exit(1)
print(sys._base_executable)
'@

function Find-Python {
    $candidates = @(@('python'), @('py', '-3.15'), @('py', '-3.14'), @('py', '-3.13'), @('py', '-3.12'))
    foreach ($candidate in $candidates) {
        $program, $options = $candidate
        if (-not (Get-Command $program -ErrorAction SilentlyContinue)) { continue }
        try {
            $found = & $program @options -I -c $suitable 2>$null
            if ($LASTEXITCODE -eq 0 -and $found) { return "$found".Trim() }
        } catch { continue }
    }
    Say 'No suitable Python was found: 64 bit, from 3.12 to 3.15.'
    Give-Up 'Install one for Windows, with its launcher "py", then start again.'
}

function Get-Version {
    if (-not (Test-Path $python)) { return '' }
    try {
        $said = & $python -I -S -c 'import sys; print(str(sys.version_info[0]) + chr(46) + str(sys.version_info[1]))'
        if ($LASTEXITCODE -eq 0) { return "$said".Trim() }
    } catch { return '' }
    return ''
}

function Test-Same([string] $one, [string] $other) {
    if (-not (Test-Path $other)) { return $false }
    return (Get-FileHash $one).Hash -eq (Get-FileHash $other).Hash
}

# True when .venv holds what the command wants, just as the locks say: of requirements.lock what
# stands before its line "# desktop", or all of it, or requirements-dev.lock, which holds that and
# the tools. Each stamp is a copy of its lock, written last.
function Test-Ready([string] $version) {
    if (-not $version) { return $false }
    if (-not (Test-Same "$root\requirements.lock" "$venv\installed-$version.lock")) { return $false }
    if ($wants -eq 'desktop') {
        return Test-Same "$root\requirements.lock" "$venv\installed-desktop-$version.lock"
    }
    if ($wants -eq 'tools') {
        return Test-Same "$root\requirements-dev.lock" "$venv\installed-dev-$version.lock"
    }
    return $true
}

function Set-Stamp([string] $lock, [string] $stamp) {
    Copy-Item $lock "$venv\stamp" -Force
    Move-Item "$venv\stamp" $stamp -Force
}

# Makes .venv, or brings a whole one up to the locks; without its stamps it counts as half-made.
function Set-Up([string] $version) {
    if ($version -and (Test-Path "$venv\installed-$version.lock")) {
        Say 'Bringing the folder .venv up to the list of packages.'
        # What is only added to leaves what was there as good as it was.
        if (-not (Test-Same "$root\requirements.lock" "$venv\installed-$version.lock")) {
            Remove-Item "$venv\installed-*.lock"
        }
    } else {
        $base = Find-Python
        Say 'First run: setting up, once. This takes a minute or two.'
        & $base -I -m venv --clear $venv
        if ($LASTEXITCODE -ne 0) { Give-Up 'The folder .venv could not be made here.' }
        $version = Get-Version
    }
    $lock = "$root\requirements.lock"
    if ($wants -eq 'tools') { $lock = "$root\requirements-dev.lock" }
    if ($wants -eq 'commands') {
        $lock = "$venv\commands.lock"
        $lines = @(Get-Content "$root\requirements.lock")
        $end = 0
        while (-not $lines[$end].StartsWith('# desktop')) { $end++ }
        $lines[0..($end - 1)] | Set-Content $lock -Encoding ascii
    }
    Say 'Fetching packages; 150 to 500 MB when none is here yet.'
    # pip also warns on its error stream, which must not end this script.
    $ErrorActionPreference = 'Continue'
    & $python -I -m pip install --quiet --disable-pip-version-check --no-input `
        --only-binary ':all:' --require-hashes -r $lock *> $log
    $fetched = $LASTEXITCODE
    $ErrorActionPreference = 'Stop'
    if ($fetched -ne 0) {
        Get-Content $log -Tail 12 | ForEach-Object { Say ($_ -replace "[a-z]+://[^ ,)'`"]*", '(address)') }
        Give-Up 'The packages could not be fetched. Mostly it is the network; then start again.'
    }
    if ($wants -eq 'tools') { Set-Stamp $lock "$venv\installed-dev-$version.lock" }
    if ($wants -ne 'commands') {
        Set-Stamp "$root\requirements.lock" "$venv\installed-desktop-$version.lock"
    }
    Set-Stamp "$root\requirements.lock" "$venv\installed-$version.lock"
    Say 'Ready.'
}

# Takes every check in turn, the quick ones first, and names those that failed.
function Test-All {
    $lint = 'from importlinter.cli import lint_imports_command as lint; lint()'
    $checks = [ordered]@{
        'ruff format'  = @('-m', 'ruff', 'format', '--check')
        'ruff check'   = @('-m', 'ruff', 'check')
        'mypy'         = @('-m', 'mypy')
        'lint-imports' = @('-c', $lint)
        'pytest'       = @('-m', 'pytest', '-n', '2', '--dist', 'worksteal')
    }
    $failed = @()
    foreach ($name in $checks.Keys) {
        Say "== $name"
        $options = $checks[$name]
        & $python @options | Out-Host
        if ($LASTEXITCODE -ne 0) { $failed += $name }
    }
    if ($failed) {
        Say "Failed: $($failed -join ', ')"
        exit 1
    }
    exit 0
}

if ($command -eq 'lock') { Give-Up 'The lock files are written with ./run lock, on another system.' }

$version = Get-Version
if (-not (Test-Ready $version)) {
    # One run at a time may set up; a second one waits here and then finds the work done.
    $name = 'roofmodel-' + ($root.ToLowerInvariant() -replace '[^a-z0-9]', '-')
    $turn = New-Object System.Threading.Mutex($false, $name)
    try { [void] $turn.WaitOne() } catch [System.Threading.AbandonedMutexException] { }
    try {
        $version = Get-Version
        if (-not (Test-Ready $version)) { Set-Up $version }
    } finally { $turn.ReleaseMutex() }
}

# The user's folder stays the working folder, so that paths typed are paths meant.
$env:PYTHONPATH = $root
$env:PYTHONSAFEPATH = '1'
switch ($command) {
    'tests' {
        Set-Location $root
        if ($rest.Count -eq 0) { Test-All }
        & $python -m pytest @rest
    }
    'guide' { & $python "$root\tests\guide\build.py" }
    'types' {
        Set-Location $root
        & "$venv\Scripts\basedpyright.exe" --pythonpath $python @rest
    }
    'benchmarks' { & $python "$root\tests\benchmarks\run.py" @rest }
    default { & $python -m roofmodel @words }
}
exit $LASTEXITCODE
