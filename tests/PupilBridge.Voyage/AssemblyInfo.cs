using System.Runtime.Versioning;

// Pseudo-terminals and /proc.
[assembly: SupportedOSPlatform("linux")]
