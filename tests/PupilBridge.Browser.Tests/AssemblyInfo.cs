using System.Runtime.Versioning;

// Debian's Chromium, pseudo-terminals and signals.
[assembly: SupportedOSPlatform("linux")]
