#!/usr/bin/env bash
# Writes docs/sbom.cdx.json anew: every package that the program is made of, with version and licence (CycloneDX), and asks the package
# source which of them have known weaknesses.
set -euo pipefail
cd "$(dirname "$0")/.."
dotnet tool restore
dotnet restore src/PupilBridge/PupilBridge.csproj
dotnet dotnet-CycloneDX src/PupilBridge/PupilBridge.csproj -o docs -fn sbom.cdx.json -F Json \
  --disable-package-restore --no-serial-number --set-name pupilbridge
dotnet list src/PupilBridge/PupilBridge.csproj package --vulnerable --include-transitive
