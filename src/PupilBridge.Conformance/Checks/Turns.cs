namespace PupilBridge.Conformance.Checks;

/// <summary>
/// The same examination several times over. A line may lose what was said, and that is no fault of the instrument: only what
/// failed each time is charged to it. What failed and passed later is not forgotten, see <see cref="Unsteady"/>.
/// </summary>
internal sealed class Turns
{
    /// <summary>
    /// How often an examination is tried at most; our choice: where a line spoils one answer in three, five in a row are spoiled once
    /// in some 240 times.
    /// </summary>
    public const int Most = 5;

    private readonly List<CheckReport> turns = [];

    /// <summary>What failed, and passed when it was tried again.</summary>
    public IEnumerable<CheckResult> Unsteady =>
        ByCheck()
            .Where(r => r.Any(one => one.Outcome == CheckOutcome.Passed))
            .SelectMany(r => r.Where(one => one.Outcome == CheckOutcome.Failed).Take(1));

    /// <summary>Whether it was tried at all.</summary>
    public bool Any => turns.Count > 0;

    /// <summary>Whether it is worth while to try once more.</summary>
    public bool IsOpen =>
        turns.Count < Most
        && ByCheck()
            .Any(r =>
                r.Any(one => one.Outcome == CheckOutcome.Failed) && r.All(one => one.Outcome != CheckOutcome.Passed)
            );

    /// <summary>Takes the report of one more time.</summary>
    public void Add(CheckReport turn) => turns.Add(turn);

    /// <summary>What stands of each check: passed if it ever did, else failed if it ever did.</summary>
    public IEnumerable<CheckResult> Settled() =>
        ByCheck()
            .Select(r =>
                r.LastOrDefault(one => one.Outcome == CheckOutcome.Passed)
                ?? r.LastOrDefault(one => one.Outcome == CheckOutcome.Failed)
                ?? r.Last()
            );

    private IEnumerable<IGrouping<Check, CheckResult>> ByCheck() =>
        turns.SelectMany(t => t.Given).GroupBy(r => r.Check);
}
