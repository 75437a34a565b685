using System.Runtime.CompilerServices;

[assembly: InternalsVisibleTo("PupilBridge.Simulator.Tests")]
