using System.Runtime.CompilerServices;

[assembly: InternalsVisibleTo("PupilBridge.Measure")]
