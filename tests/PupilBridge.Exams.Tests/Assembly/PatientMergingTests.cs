using CsCheck;
using PupilBridge.Exams.Assembly;
using PupilBridge.Exams.Assembly.Facts;
using PupilBridge.Exams.Entries;

namespace PupilBridge.Exams.Tests.Assembly;

/// <summary>Two numbers for one person: what is taken, what is not, and that taking it back leaves nothing behind.</summary>
public class PatientMergingTests
{
    private static readonly PatientId One = new("Q-1001");
    private static readonly PatientId Two = new("Q-1002");
    private static readonly PatientId Three = new("Q-1003");

    [Fact]
    public void All_numbers_of_a_person_lead_to_the_one_that_goes_on()
    {
        var book = Run(Merge(1, One, Three), Merge(2, One, Two));

        Assert.All([One, Two, Three], number => Assert.Equal(One, book.Mergings.Surviving(number)));
        Assert.All([One, Two, Three], number => Assert.Equal([One, Two, Three], book.Mergings.NumbersOf(number)));
        Assert.Equal([new PatientId("Q-9")], book.Mergings.NumbersOf(new("Q-9")));
    }

    [Theory]
    [InlineData("Q-1001", "Q-1001", MergingObstacle.WithItself)]
    [InlineData("Q-1003", "Q-1002", MergingObstacle.GoneAlready)]
    [InlineData("Q-1001", "Q-1002", MergingObstacle.GoneAlready)]
    [InlineData("Q-1002", "Q-1001", MergingObstacle.KeptIsGone)]
    [InlineData("Q-1002", "Q-1003", MergingObstacle.KeptIsGone)]
    [InlineData("Q-1003", "Q-1001", MergingObstacle.OthersLeadHere)]
    public void Chains_and_circles_are_not_taken(string kept, string merged, MergingObstacle obstacle)
    {
        var book = Run(Merge(1, One, Two));
        Assert.Equal(obstacle, book.Mergings.WhyNot(new(kept), new(merged)));

        var (after, changes) = Apply(book, Merge(2, new(kept), new(merged)));

        Assert.IsType<EntryIgnored>(Assert.Single(changes));
        Assert.Equal(book.Mergings, after.Mergings);
    }

    [Fact]
    public void A_merging_is_taken_back_once()
    {
        var parted = Run(Merge(1, One, Two), Part(2, 1));
        Assert.Equal(PatientMergings.None, parted.Mergings);

        Assert.IsType<EntryIgnored>(Assert.Single(Apply(parted, Part(3, 1)).Changes));
        Assert.IsType<EntryIgnored>(Assert.Single(Apply(Run(Merge(1, One, Two)), Part(2, 7)).Changes));
        Assert.Null(parted.Mergings.WhyNot(Two, One));
    }

    [Fact]
    public void Whatever_is_merged_and_parted_every_number_is_one_step_from_its_person() =>
        Gen.Select(Gen.Bool, Gen.Int[1, 6], Gen.Int[1, 6], Gen.Int[1, 30])
            .Array[0, 30]
            .Sample(steps =>
            {
                var book = ExamBook.Empty;
                for (var n = 0; n < steps.Length; n++)
                {
                    var (isMerge, kept, merged, back) = steps[n];
                    book = Apply(book, isMerge ? Merge(n + 1, Number(kept), Number(merged)) : Part(n + 1, back)).Book;
                }

                foreach (var merging in book.Mergings.All)
                {
                    Assert.Null(book.Mergings.Of(merging.Kept));
                    Assert.NotEqual(merging.Kept, merging.Merged);
                    // Taken back again, nothing is left of it; and the others stand as they did.
                    var (without, _) = Apply(
                        book,
                        new PatientsParted
                        {
                            Id = new(1000),
                            Who = new("AD"),
                            At = default,
                            ProgramVersion = "0.1.0",
                            Merging = merging.Entry,
                            Reason = "",
                        }
                    );
                    Assert.Equal(book.Mergings.All.Where(one => one != merging), without.Mergings.All);
                }

                var numbers = Enumerable.Range(1, 6).Select(Number).ToList();
                foreach (var number in numbers)
                {
                    var all = book.Mergings.NumbersOf(number);
                    Assert.Contains(number, all);
                    Assert.Equal(all.Distinct(), all);
                    Assert.All(all, other => Assert.Equal(all, book.Mergings.NumbersOf(other)));
                }
            });

    private static PatientId Number(int n) => new($"Q-{n}");

    private static PatientsMerged Merge(int id, PatientId kept, PatientId merged) =>
        new()
        {
            Id = new((UInt128)id),
            Who = new("AD"),
            At = default,
            ProgramVersion = "0.1.0",
            Kept = kept,
            Merged = merged,
            IsDespiteBirthDates = false,
            Reason = "entered twice",
        };

    private static PatientsParted Part(int id, int merging) =>
        new()
        {
            Id = new((UInt128)id + 500),
            Who = new("AD"),
            At = default,
            ProgramVersion = "0.1.0",
            Merging = new((UInt128)merging),
            Reason = "two persons",
        };

    private static ExamBook Run(params PersonEntry[] entries) =>
        entries.Aggregate(ExamBook.Empty, (book, entry) => Apply(book, entry).Book);

    private static (ExamBook Book, IReadOnlyList<ExamChange> Changes) Apply(ExamBook book, PersonEntry entry)
    {
        var next = new SequencedEntry(new(book.LastApplied.Value + 1), entry);
        var (after, changes) = ExamReducer.Apply(book, next, _ => null as Exam);
        return (after, changes);
    }
}
