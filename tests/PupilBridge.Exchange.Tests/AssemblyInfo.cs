using System.Runtime.Versioning;

// The scenarios that sending is tried in run on Linux.
[assembly: SupportedOSPlatform("linux")]
