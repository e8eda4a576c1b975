@echo off
rem Starts Lampblack on Windows: builds it once, then starts the built program. Written with care but not yet tried on Windows.
setlocal
set "HERE=%~dp0"
set "STORE=%HERE%.build"

rem Names, sizes and times of the sources tell whether they changed.
set "STAMP="
for /f "usebackq delims=" %%s in (`powershell -NoProfile -ExecutionPolicy Bypass -Command "$h=$env:HERE; $f=@('src','fonts','examples','firmware','Directory.Build.props','Directory.Packages.props','global.json','BannedSymbols.txt') | ForEach-Object { Join-Path $h $_ } | Where-Object { Test-Path -LiteralPath $_ } | ForEach-Object { Get-ChildItem -LiteralPath $_ -Recurse -File } | Where-Object { $_.FullName -notmatch '\\(bin|obj|out|node_modules)\\' } | Sort-Object FullName | ForEach-Object { $_.FullName + $_.Length + $_.LastWriteTimeUtc.Ticks }; $b=[Text.Encoding]::UTF8.GetBytes($f -join '|'); $s=[Security.Cryptography.SHA256]::Create().ComputeHash($b); -join ($s[0..7] | ForEach-Object { $_.ToString('x2') })"`) do set "STAMP=%%s"
if not defined STAMP (
  echo Lampblack could not look at its own files: PowerShell did not answer. 1>&2
  exit /b 3
)
set "APP=%STORE%\win-%STAMP%"
if exist "%APP%\lampblack-cli.dll" goto start

where dotnet >nul 2>nul
if errorlevel 1 (
  echo Lampblack needs the .NET 10 SDK, and there is no 'dotnet' here. Get it from https://dotnet.microsoft.com/download and try again. 1>&2
  exit /b 3
)
if exist "%HERE%fonts\package-lock.json" if not exist "%HERE%fonts\node_modules" (
  where npm >nul 2>nul
  if errorlevel 1 (
    echo Lampblack fetches its fonts with npm, and there is no 'npm' here. Install Node.js with npm and try again. 1>&2
    exit /b 3
  )
)

echo Building Lampblack once, about a minute... 1>&2
if not exist "%STORE%" mkdir "%STORE%"
set "WORK=%STORE%\work-%RANDOM%%RANDOM%"
mkdir "%WORK%"
call :make > "%STORE%\build.log" 2>&1
if errorlevel 1 (
  type "%STORE%\build.log" 1>&2
  rmdir /s /q "%WORK%"
  echo Lampblack could not be built; the lines above say why. 1>&2
  exit /b 3
)
rem Another start may have been quicker; then its program is used.
if not exist "%APP%\lampblack-cli.dll" move "%WORK%\app" "%APP%" >nul
rmdir /s /q "%WORK%"

:start
dotnet "%APP%\lampblack-cli.dll" %*
exit /b %ERRORLEVEL%

:make
pushd "%HERE%"
set "DOTNET_CLI_TELEMETRY_OPTOUT=1"
set "RID=win-x64"
if /i "%PROCESSOR_ARCHITECTURE%"=="ARM64" set "RID=win-arm64"
rem A copy is built, so that the lock files of the packages here stay as they are.
for %%d in (src fonts examples firmware) do if exist "%%d" robocopy "%%d" "%WORK%\tree\%%d" /e /xd bin obj out >nul
for %%f in (Directory.Build.props Directory.Packages.props global.json BannedSymbols.txt .editorconfig) do if exist "%%f" copy "%%f" "%WORK%\tree\" >nul
popd
set "FLAGS=-c Release --self-contained false -nologo -p:UseAppHost=false -p:RunAnalyzers=false -p:TreatWarningsAsErrors=false -p:GenerateDocumentationFile=false"
dotnet publish "%WORK%\tree\src\Lampblack.Cli\Lampblack.Cli.csproj" -o "%WORK%\app" %FLAGS% -r %RID% -p:PublishReadyToRun=true && exit /b 0
if exist "%WORK%\app" rmdir /s /q "%WORK%\app"
dotnet publish "%WORK%\tree\src\Lampblack.Cli\Lampblack.Cli.csproj" -o "%WORK%\app" %FLAGS%
exit /b %ERRORLEVEL%
