using System.Runtime.CompilerServices;

[assembly: InternalsVisibleTo("PupilBridge.Ports.Tests")]
