using System.Runtime.Versioning;

// Pseudo-terminals and signals.
[assembly: SupportedOSPlatform("linux")]
