namespace PupilBridge.Ports.Tests;

/// <summary>Counts of descriptors and threads mean something only while nothing else runs.</summary>
[CollectionDefinition("endurance", DisableParallelization = true)]
public sealed class EnduranceCollection;
