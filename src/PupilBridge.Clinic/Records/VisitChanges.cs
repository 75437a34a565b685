using System.Globalization;
using PupilBridge.Clinic.Views;
using PupilBridge.Exams.Records;

namespace PupilBridge.Clinic.Records;

/// <summary>What differs between a visit's findings and those of the visit before.</summary>
internal static class VisitChanges
{
    /// <summary>
    /// The criteria that say something else. A criterion about the larger pupil names its eye only where it is met; such a finding is
    /// compared by criterion, light and block, and a change of its eye is a change.
    /// </summary>
    /// <param name="now">The findings of the visit.</param>
    /// <param name="before">Those of the visit before.</param>
    public static IReadOnlyList<CriterionChange> Of(
        IReadOnlyList<RecordFinding> now,
        IReadOnlyList<RecordFinding> before
    )
    {
        var earlier = before.GroupBy(Key).ToDictionary(g => g.Key, g => g.ToArray());
        List<CriterionChange> changes = [];
        foreach (var group in now.GroupBy(Key))
        {
            if (!earlier.TryGetValue(group.Key, out var old))
            {
                continue;
            }

            foreach (var finding in group)
            {
                // Both eyes may have a finding of their own under one key; then like is compared with like.
                var other = old.FirstOrDefault(f => f.Eye == finding.Eye) ?? (old.Length == 1 ? old[0] : null);
                if (other is not null && (other.Verdict != finding.Verdict || other.Eye != finding.Eye))
                {
                    changes.Add(Change(finding, other.Verdict));
                }
            }
        }

        return changes;
    }

    /// <summary>The differences of sizes, with the uncertainty that the criterion on differences found.</summary>
    /// <param name="sizes">The sizes of the visit.</param>
    /// <param name="findings">Its findings.</param>
    public static IEnumerable<SizeDifferenceView> Differences(
        IReadOnlyList<SizeView> sizes,
        IReadOnlyList<RecordFinding> findings
    )
    {
        foreach (var light in new[] { "bright", "dim" })
        {
            var right = sizes.LastOrDefault(s => s.Eye == "OD" && s.Light == light && !s.IsSuperseded);
            var left = sizes.LastOrDefault(s => s.Eye == "OS" && s.Light == light && !s.IsSuperseded);
            if (right is null || left is null)
            {
                continue;
            }

            var found = findings.FirstOrDefault(f => f.Criterion == "anisocoria-descriptive" && f.Light == light);
            yield return new(
                light,
                right.Millimetres - left.Millimetres,
                double.TryParse(found?.ExpandedUncertainty, CultureInfo.InvariantCulture, out var u) ? u : null
            );
        }
    }

    private static (string, string?, string?) Key(RecordFinding finding) =>
        (finding.Criterion, finding.Light, finding.Block);

    private static CriterionChange Change(RecordFinding finding, string from) =>
        new(
            finding.Criterion,
            finding.Eye switch
            {
                "right" => "OD",
                "left" => "OS",
                _ => null,
            },
            finding.Light,
            finding.Block,
            from,
            finding.Verdict,
            finding.Sentence
        );
}
