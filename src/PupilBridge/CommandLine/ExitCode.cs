namespace PupilBridge.CommandLine;

/// <summary>
/// What a command tells its caller by the number it ends with. The numbers are a promise to scripts: they are listed in
/// docs/command-line.md and never change their meaning.
/// </summary>
internal enum ExitCode
{
    /// <summary>It did what was asked.</summary>
    Done = 0,

    /// <summary>A fault inside the program, not foreseen; the message asks for a report.</summary>
    Fault = 1,

    /// <summary>The command line itself is wrong: an unknown word, a missing or impossible value.</summary>
    Usage = 2,

    /// <summary>What was named does not exist: an exam, an instrument, a data folder.</summary>
    NotFound = 3,

    /// <summary>It was understood and is not possible now: a judgement without its opportunity, a closed exam.</summary>
    Refused = 4,

    /// <summary>The data folder belongs to another running copy.</summary>
    InUse = 5,

    /// <summary>The configuration is invalid; all faults were listed.</summary>
    Configuration = 6,

    /// <summary>A check found damage, or something that does not follow from the journal.</summary>
    Damaged = 7,

    /// <summary>A port or instrument could not be used: missing, busy, forbidden, silent.</summary>
    Port = 8,

    /// <summary>The command needs the running service, and none answers for this data folder.</summary>
    NoService = 9,

    /// <summary>Files could not be read or written: disk full, no permission, a read-only file system.</summary>
    Storage = 10,

    /// <summary>Ended by Ctrl-C before it was finished.</summary>
    Interrupted = 130,
}
