using PupilBridge.CommandLine;
using PupilBridge.Exams.Statistics.Agreement;
using PupilBridge.Tables;

namespace PupilBridge.Verbs.Agreement;

/// <summary>Prints the six intraclass correlations of several raters.</summary>
internal static class RatingsAnswer
{
    /// <summary>Names of columns that tell subjects apart and hold no ratings, whatever stands in them.</summary>
    private static readonly string[] NamesOfSubjects =
    [
        "subject",
        "target",
        "patient",
        "person",
        "case",
        "id",
        "no",
        "no.",
        "nr",
        "number",
        "row",
        "#",
    ];

    /// <summary>Prints them.</summary>
    /// <param name="call">The invocation.</param>
    /// <param name="table">The table.</param>
    /// <param name="columns">The raters' columns; none means all columns of numbers.</param>
    /// <param name="asJson">Whether a program reads them.</param>
    public static void Print(Call call, PlainTable table, IReadOnlyList<string> columns, bool asJson)
    {
        var places = columns.Count > 0 ? [.. columns.Select(table.PlaceOf).Distinct()] : RatersOf(table);
        if (columns.Count == 0)
        {
            call.Remark($"Raters: {string.Join(", ", places.Select(place => table.Headings[place]))}.");
        }

        var divided = RatingTable.Of([.. places.Select(table.Numbers)]);
        var icc = IntraclassCorrelations.Of(divided);
        (string Key, string Says, IntraclassCorrelation Value)[] six =
        [
            ("icc_1_1", "ICC(1,1)  raters drawn anew for each subject, one rating", icc.Single1),
            ("icc_2_1", "ICC(2,1)  the same raters, drawn from many, one rating", icc.Single2),
            ("icc_3_1", "ICC(3,1)  these raters alone, one rating", icc.Single3),
            ("icc_1_k", $"ICC(1,{divided.Raters})  as the first, mean of all raters", icc.Mean1),
            ("icc_2_k", $"ICC(2,{divided.Raters})  as the second, mean of all raters", icc.Mean2),
            ("icc_3_k", $"ICC(3,{divided.Raters})  as the third, mean of all raters", icc.Mean3),
        ];
        if (asJson)
        {
            call.PrintJson(
                new RatingsJson(
                    divided.Subjects,
                    divided.Raters,
                    JsonNumbers.OrNull(icc.Single1.Value),
                    JsonNumbers.OrNull(icc.Single2.Value),
                    JsonNumbers.OrNull(icc.Single3.Value),
                    JsonNumbers.OrNull(icc.Mean1.Value),
                    JsonNumbers.OrNull(icc.Mean2.Value),
                    JsonNumbers.OrNull(icc.Mean3.Value),
                    six.ToDictionary(one => one.Key, one => JsonNumbers.Ends(one.Value.Interval)),
                    divided.SubjectsSquare,
                    divided.WithinSquare,
                    divided.RatersSquare,
                    divided.ResidualSquare
                )
            );
        }
        else
        {
            var printed = new TextTable(
                $"{divided.Subjects} subjects, {divided.Raters} raters",
                "value",
                "95 % interval"
            );
            foreach (var (_, says, value) in six)
            {
                printed.Add(says, PairsAnswer.Number(value.Value), PairsAnswer.Ends(value.Interval));
            }

            printed.Print(call.Terminal);
            call.Print(
                "Shrout & Fleiss, Psychol Bull 1979;86:420-428: which one is right depends on how the raters were chosen."
            );
        }

        PairsAnswer.RemarkFew(call, divided.Subjects);
    }

    private static IReadOnlyList<int> RatersOf(PlainTable table) =>
        [
            .. table
                .Places(heading => !NamesOfSubjects.Contains(heading, StringComparer.OrdinalIgnoreCase))
                .Where(table.IsOfNumbers),
        ];
}
