using System.Text;
using PupilBridge.Conformance.Tracing;

namespace PupilBridge.Conformance.Checks;

/// <summary>The results of a run, as they come in.</summary>
public sealed class CheckReport
{
    private readonly Dictionary<Check, CheckResult> results = [];

    /// <summary>Who was examined, for a person; null as long as no identity came.</summary>
    public string? Instrument { get; internal set; }

    /// <summary>One result for each check of the catalogue, in its order.</summary>
    public IReadOnlyList<CheckResult> Results =>
        [
            .. CheckCatalogue.All.Select(check =>
                results.GetValueOrDefault(check)
                ?? new CheckResult(check, CheckOutcome.NotExamined, "The run ended before its turn.", null)
            ),
        ];

    /// <summary>The results that came in so far.</summary>
    internal IEnumerable<CheckResult> Given => results.Values;

    /// <summary>Whether nothing failed.</summary>
    public bool IsClean => results.Values.All(r => r.Outcome != CheckOutcome.Failed);

    internal void Pass(Check check, string saw) => Set(new CheckResult(check, CheckOutcome.Passed, saw, null));

    internal void Fail(Check check, string saw, string? line = null) =>
        Set(
            new CheckResult(
                check,
                CheckOutcome.Failed,
                saw,
                line is null ? null : Recording.Escaped(Encoding.Latin1.GetBytes(line))
            )
        );

    internal void Skip(Check check, string why) => Set(new CheckResult(check, CheckOutcome.NotExamined, why, null));

    /// <summary>Passes the check if nothing speaks against it.</summary>
    internal void Judge(Check check, string? against, string saw, string? line = null)
    {
        if (against is null)
        {
            Pass(check, saw);
        }
        else
        {
            Fail(check, against, line);
        }
    }

    internal void Take(CheckResult result) => Set(result);

    // The first failure stands: what comes later may only follow from it.
    private void Set(CheckResult result)
    {
        if (results.GetValueOrDefault(result.Check)?.Outcome != CheckOutcome.Failed)
        {
            results[result.Check] = result;
        }
    }
}
