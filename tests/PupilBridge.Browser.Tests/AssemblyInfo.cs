using System.Runtime.Versioning;

// Debian's Chromium, pseudo-terminals and signals.
[assembly: SupportedOSPlatform("linux")]

// A simulated exam takes as long as a real one, two minutes, and waits part of the time: so a few run beside each other. With more of
// them on two cores the pages are so late that what an examiner does in good time comes too late.
[assembly: CollectionBehavior(MaxParallelThreads = 6)]
