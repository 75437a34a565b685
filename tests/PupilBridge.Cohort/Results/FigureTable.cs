using System.Globalization;
using System.Text.Json.Nodes;

namespace PupilBridge.Cohort.Results;

/// <summary>The clinic's counts as values, and as the table of docs/criteria.md that is made of those values alone.</summary>
public static class FigureTable
{
    private const string Begin = "<!-- simulated clinic: written by the measuring program -->";
    private const string End = "<!-- simulated clinic: end -->";

    /// <summary>Every criterion's counts, sensitivity and specificity with their intervals, by its id.</summary>
    /// <param name="run">The clinic.</param>
    /// <returns>An object.</returns>
    public static JsonObject Json(CohortRun run)
    {
        ArgumentNullException.ThrowIfNull(run);
        JsonObject all = [];
        foreach (var (id, tally) in run.Tallies)
        {
            JsonObject one = new() { ["present"] = Json(tally.Present), ["absent"] = Json(tally.Absent) };
            Put(one, "sensitivity", tally.Sensitivity);
            Put(one, "specificity", tally.Specificity);
            Put(one, "sensitivity_undecided_missed", tally.SensitivityWithUndecided);
            Put(one, "specificity_undecided_missed", tally.SpecificityWithUndecided);
            all[id] = one;
        }

        return all;
    }

    /// <summary>A proportion with its interval.</summary>
    /// <param name="interval">The proportion.</param>
    /// <returns>An object.</returns>
    public static JsonObject Json(WilsonInterval interval)
    {
        JsonObject one = new() { ["hits"] = interval.Hits, ["of"] = interval.Of };
        Put(one, "part", interval);
        return one;
    }

    /// <summary>The criteria of which two clinics' intervals of sensitivity or specificity do not touch.</summary>
    /// <param name="one">A clinic.</param>
    /// <param name="other">Another one.</param>
    /// <returns>Their ids.</returns>
    public static JsonArray Apart(CohortRun one, CohortRun other)
    {
        ArgumentNullException.ThrowIfNull(one);
        ArgumentNullException.ThrowIfNull(other);
        static bool Touch(WilsonInterval a, WilsonInterval b) => a.Lower <= b.Upper && b.Lower <= a.Upper;
        return
        [
            .. one
                .Tallies.Where(t =>
                    !Touch(t.Value.Sensitivity, other.Tallies[t.Key].Sensitivity)
                    || !Touch(t.Value.Specificity, other.Tallies[t.Key].Specificity)
                )
                .Select(t => (JsonNode)t.Key),
        ];
    }

    /// <summary>The table.</summary>
    /// <param name="criteria">What <see cref="Json(CohortRun)"/> made.</param>
    /// <returns>Its lines.</returns>
    public static IEnumerable<string> Lines(JsonObject criteria)
    {
        ArgumentNullException.ThrowIfNull(criteria);
        yield return "| criterion | there: met / other eye / not met / cannot tell / not examined | not there: the same | "
            + "sensitivity | specificity | the two with \"cannot tell\" as missed |";
        yield return "|---|---|---|---|---|---|";
        foreach (var (id, node) in criteria)
        {
            var one = node!.AsObject();
            yield return $"| `{id}` | {Counts(one["present"]!)} | {Counts(one["absent"]!)} | {Part(one, "sensitivity")} | "
                + $"{Part(one, "specificity")} | {Part(one, "sensitivity_undecided_missed")}; {Part(one, "specificity_undecided_missed")} |";
        }
    }

    /// <summary>Puts the table into the document.</summary>
    /// <param name="document">The document, with the two remarks between which the table stands.</param>
    /// <param name="criteria">What <see cref="Json(CohortRun)"/> made.</param>
    /// <returns>The document with the new table.</returns>
    /// <exception cref="FormatException">The document has no place for it.</exception>
    public static string Into(string document, JsonObject criteria)
    {
        ArgumentNullException.ThrowIfNull(document);
        var (from, to) = (
            document.IndexOf(Begin, StringComparison.Ordinal),
            document.IndexOf(End, StringComparison.Ordinal)
        );
        if (from < 0 || to < from)
            throw new FormatException($"The document has no lines \"{Begin}\" and \"{End}\" for the table.");
        return $"{document[..(from + Begin.Length)]}\n\n{string.Join('\n', Lines(criteria))}\n\n{document[to..]}";
    }

    private static JsonObject Json(Counts counts)
    {
        JsonObject reasons = [];
        foreach (var (reason, count) in counts.Reasons)
            reasons[reason.ToString()] = count;
        return new()
        {
            ["met"] = counts.Met,
            ["met_other_eye"] = counts.MetOtherEye,
            ["not_met"] = counts.NotMet,
            ["cannot_tell"] = counts.CannotTell,
            ["not_examined"] = counts.NotExamined,
            ["cannot_tell_reasons"] = reasons,
        };
    }

    private static void Put(JsonObject one, string name, WilsonInterval interval)
    {
        one[name] = interval.Proportion is { } part ? Math.Round(part, 4) : null;
        one[name + "_95"] =
            interval.Of == 0 ? null : new JsonArray(Math.Round(interval.Lower, 4), Math.Round(interval.Upper, 4));
    }

    private static string Counts(JsonNode counts) =>
        $"{counts["met"]} / {counts["met_other_eye"]} / {counts["not_met"]} / {counts["cannot_tell"]} / {counts["not_examined"]}";

    private static string Part(JsonObject one, string name)
    {
        if (one[name] is not { } part || one[name + "_95"] is not JsonArray ends)
            return "none decided";
        static string Percent(JsonNode? value) =>
            (100 * value!.GetValue<double>()).ToString("0.0", CultureInfo.InvariantCulture);
        return $"{Percent(part)} % ({Percent(ends[0])} to {Percent(ends[1])})";
    }
}
