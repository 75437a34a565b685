using PupilBridge.Constructed;
using PupilBridge.Exams.Criteria;

namespace PupilBridge.Exams.Tests.Criteria;

/// <summary>The constructed exams of docs/criteria.md, whose findings were worked out by hand from the sources.</summary>
public class ConstructedExamTests
{
    public static TheoryData<int> Numbers => [.. CriteriaDocument.Rows.Select(r => r.Number)];

    [Theory]
    [MemberData(nameof(Numbers))]
    public void A_constructed_exam_gives_the_findings_that_stand_beside_it(int number)
    {
        var row = CriteriaDocument.Rows.Single(r => r.Number == number);
        var expected = CriteriaDocument.Expected(CriteriaDocument.Rows[0].Expected);
        if (number > 1)
        {
            foreach (var (key, verdict) in CriteriaDocument.Expected(row.Expected))
            {
                Assert.True(expected.ContainsKey(key), $"{row.Name}: no finding is named {key}");
                Assert.True(expected[key] != verdict, $"{row.Name}: {key} {verdict} is what exam 1 says already");
                expected[key] = verdict;
            }
        }

        var told = CriteriaDocument.Told(Findings.Of(ConstructedExam.Of(row.Done)));
        Assert.Equal(
            string.Join('\n', expected.Select(e => $"{e.Key} {e.Value}")),
            string.Join('\n', told.Select(e => $"{e.Key} {e.Value}"))
        );
    }

    [Fact]
    public void There_are_at_least_forty_and_they_are_numbered_through()
    {
        Assert.True(CriteriaDocument.Rows.Count >= 40);
        Assert.Equal(Enumerable.Range(1, CriteriaDocument.Rows.Count), CriteriaDocument.Rows.Select(r => r.Number));
    }

    [Fact]
    public void Every_criterion_is_met_by_one_of_them_and_every_criterion_is_in_the_document()
    {
        var met = CriteriaDocument
            .Rows.SelectMany(r => Findings.Of(ConstructedExam.Of(r.Done)))
            .Where(f => f.Verdict == CriterionVerdict.Met)
            .Select(f => f.Criterion)
            .ToHashSet();
        Assert.Equal([], CriteriaCatalogue.All.Select(c => c.Id).Where(id => !met.Contains(id)));
        Assert.All(
            CriteriaCatalogue.All,
            c => Assert.Contains($"| `{c.Id}` |", CriteriaDocument.Text, StringComparison.Ordinal)
        );
    }
}
