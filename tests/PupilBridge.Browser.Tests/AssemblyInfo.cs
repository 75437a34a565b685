using System.Runtime.Versioning;

// Debian's Chromium, pseudo-terminals and signals.
[assembly: SupportedOSPlatform("linux")]

// A simulated exam takes as long as a real one, two minutes, and waits most of the time: so exams run beside each other.
[assembly: CollectionBehavior(MaxParallelThreads = 9)]
