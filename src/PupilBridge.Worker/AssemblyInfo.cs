using System.Runtime.CompilerServices;

[assembly: InternalsVisibleTo("PupilBridge.Worker.Tests")]
[assembly: InternalsVisibleTo("PupilBridge.Scenarios")]
[assembly: InternalsVisibleTo("PupilBridge.Measure")]
[assembly: InternalsVisibleTo("PupilBridge.Fuzz")]
[assembly: InternalsVisibleTo("PupilBridge.Voyage")]
