namespace PupilBridge.Browser.Storms;

/// <summary>What a storm of kills under an open lane came to.</summary>
/// <param name="Kills">How often the service was killed.</param>
/// <param name="KillsWithAnswerWaiting">Of these, while an answer was typed and not known as recorded.</param>
/// <param name="KillsWithEventsUnderWay">Of these, while the instrument kept events that were not acknowledged yet.</param>
/// <param name="Exams">Exams that were examined meanwhile, each to its end.</param>
/// <param name="Judgements">Judgements that were entered by key.</param>
/// <param name="Events">Events that happened at the instrument.</param>
/// <param name="Problems">Everything that was wrong, as sentences: a judgement or size that a record lacks, has twice or has wrongly, an
/// event that the journal lacks, an error on the page. Empty if all is well.</param>
public sealed record ConsoleStormResult(
    int Kills,
    int KillsWithAnswerWaiting,
    int KillsWithEventsUnderWay,
    int Exams,
    int Judgements,
    long Events,
    IReadOnlyList<string> Problems
);
