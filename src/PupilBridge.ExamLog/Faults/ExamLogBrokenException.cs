namespace PupilBridge.ExamLog;

/// <summary>
/// The exam log cannot be used as it is. Nothing is lost by that: it is a projection of the journal. The one who holds the
/// store disposes it and either opens it again and applies what follows <see cref="ExamLogStore.LastApplied"/>, or has it
/// built anew by an <see cref="ExamLogRebuilder"/>.
/// </summary>
public sealed class ExamLogBrokenException : Exception
{
    /// <summary>Says what is wrong with which file and what to do.</summary>
    /// <param name="trouble">The kind of trouble.</param>
    /// <param name="path">The file or folder concerned.</param>
    /// <param name="message">A sentence for a person: what happened and what to do next.</param>
    /// <param name="innerException">What the storage engine or the operating system said, if anything.</param>
    public ExamLogBrokenException(ExamLogTrouble trouble, string path, string message, Exception? innerException = null)
        : base(message, innerException)
    {
        Trouble = trouble;
        Path = path;
    }

    /// <summary>The kind of trouble.</summary>
    public ExamLogTrouble Trouble { get; }

    /// <summary>The file or folder concerned.</summary>
    public string Path { get; }

    internal static ExamLogBrokenException Damaged(string path, string what, Exception? inner = null) =>
        Of(ExamLogTrouble.Damaged, path, what, inner);

    internal static ExamLogBrokenException Of(ExamLogTrouble trouble, string path, string what, Exception? inner) =>
        new(
            trouble,
            path,
            $"The exam log {path} cannot be used: {what} No reading is lost, the journal holds them all. "
                + "Start the service, which makes the exam log anew, or run 'pupilbridge journal rebuild'.",
            inner
        );
}
