namespace PupilBridge.ExamLog;

/// <summary>Why the exam log cannot be used as it lies there.</summary>
public enum ExamLogTrouble
{
    /// <summary>A file cannot be read or written, or what it holds is not what was written.</summary>
    Damaged = 1,

    /// <summary>The machine went down while the exam log was open; a file that opens after that proves nothing.</summary>
    PowerLost = 2,

    /// <summary>An older version of the program wrote the documents.</summary>
    OlderVersion = 3,

    /// <summary>A newer version of the program wrote the documents.</summary>
    NewerVersion = 4,

    /// <summary>What was read is not what was written. Opening the files again does not help; only building them anew does.</summary>
    NotAsWritten = 5,
}
