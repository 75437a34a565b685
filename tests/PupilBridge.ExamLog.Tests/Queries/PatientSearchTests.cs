using CsCheck;
using PupilBridge.ExamLog.Tests.Support;

namespace PupilBridge.ExamLog.Tests.Queries;

public class PatientSearchTests
{
    [Theory]
    [InlineData("q-1004", "Q-1004")]
    [InlineData("1004", "Q-1004")]
    [InlineData("dev", "Q-1004")]
    [InlineData("VRI", "Q-1003")]
    [InlineData("vri cél", "Q-1003")]
    [InlineData("CÉLINE DE", "Q-1003")]
    [InlineData("o'nei", "Q-1004")]
    [InlineData("nei", "Q-1004")]
    [InlineData("ÅNG", "Q-1005")]
    [InlineData("vri dev", null)]
    [InlineData("ries", null)]
    public void A_patient_is_found_by_the_beginnings_of_words(string text, string? expected)
    {
        using var data = new DataFolder();
        using var store = Store(data, 5);

        var found = store.SearchPatients(text);

        Assert.Equal(expected is null ? [] : [expected], found.Items.Select(patient => patient.Id));
        Assert.Null(found.Next);
    }

    [Theory]
    [InlineData("")]
    [InlineData(" - ")]
    public void Without_a_word_all_are_listed_by_number(string text)
    {
        using var data = new DataFolder();
        using var store = Store(data, 12);

        var first = store.SearchPatients(text, limit: 10);
        var second = store.SearchPatients(text, first.Next, limit: 10);

        Assert.Equal(
            Enumerable.Range(1001, 12).Select(n => $"Q-{n}"),
            first.Items.Concat(second.Items).Select(patient => patient.Id)
        );
    }

    [Fact]
    public void Pages_of_any_search_together_hold_each_patient_that_fits_once()
    {
        const int Count = 3000;
        using var data = new DataFolder();
        using var store = Store(data, Count);
        var all = Enumerable.Range(0, Count).Select(n => Samples.Patient(n)).ToList();
        var beginnings = new[] { "a", "an", "ann", "b", "be", "ö", "q", "10", "Q-1", "ann an", "annas", "x", "d 11" };
        Gen.Select(Gen.Int[0, beginnings.Length - 1].Select(n => beginnings[n]), Gen.Int[20, 500])
            .Sample(
                (text, limit) =>
                {
                    var found = new List<string>();
                    string? after = null;
                    do
                    {
                        var page = store.SearchPatients(text, after, limit);
                        Assert.True(page.Items.Count <= limit);
                        found.AddRange(page.Items.Select(patient => patient.Id));
                        Assert.NotEqual(after ?? "", page.Next);
                        after = page.Next;
                    } while (after is not null);

                    Assert.Equal(found.Count, found.Distinct().Count());
                    Assert.Equal(
                        all.Where(patient => Fits(patient, text)).Select(patient => patient.Id).Order(),
                        found.Order()
                    );
                },
                iter: 60,
                threads: 1
            );
    }

    [Fact]
    public void What_a_page_ends_with_tells_no_name()
    {
        using var data = new DataFolder();
        using var store = Store(data, 100);

        var next = store.SearchPatients("ann", limit: 3).Next;

        Assert.NotNull(next);
        Assert.DoesNotContain("ann", next, StringComparison.OrdinalIgnoreCase);
    }

    [Theory]
    [InlineData(63)]
    [InlineData(64)]
    [InlineData(65)]
    public void Words_of_any_length_and_script_are_found_and_verified(int before)
    {
        using var data = new DataFolder();
        using var store = Store(data, 3);
        // A letter outside the first plane takes two places; the last word is cut in it, before it or after it.
        var name = $"Zoë 王芳 {new string('x', before)}\U00010400\U00010401";
        store.Apply(5, new ExamLogChanges { Patients = [Samples.Patient(1) with { Name = name }] });

        Assert.All(
            new[] { "王", "ZOË", "zoe\u0308"[..2], new string('X', 60), name },
            text => Assert.Equal("Q-1002", Assert.Single(store.SearchPatients(text).Items).Id)
        );
        store.Verify();
    }

    [Fact]
    public void A_corrected_name_is_found_and_the_old_one_is_not()
    {
        using var data = new DataFolder();
        using var store = Store(data, 3);
        store.Apply(5, new ExamLogChanges { Patients = [Samples.Patient(1) with { Name = "Bertil Öberg" }] });

        Assert.Single(store.SearchPatients("öberg").Items);
        Assert.Single(store.SearchPatients("bertil").Items);
        Assert.Empty(store.SearchPatients("bakker").Items);
        Assert.Equal(3, store.Verify().Documents);
    }

    [Fact]
    public void An_erased_name_is_found_no_more()
    {
        using var data = new DataFolder();
        using var store = Store(data, 3);
        store.Apply(5, new ExamLogChanges { Patients = [Samples.Patient(1) with { Name = "" }] });

        Assert.Empty(store.SearchPatients("bertil").Items);
        Assert.Single(store.SearchPatients("1002").Items);
        store.Verify();
    }

    [Theory]
    [InlineData("Q-1001")]
    [InlineData("x:Q-1001")]
    public void A_place_that_is_none_is_refused_with_what_to_do(string after)
    {
        using var data = new DataFolder();
        using var store = Store(data, 3);

        var refusal = Assert.Throws<ArgumentException>(() => store.SearchPatients("dev", after));

        Assert.Contains("leave it out", refusal.Message, StringComparison.Ordinal);
    }

    private static ExamLogStore Store(DataFolder data, int count)
    {
        var store = ExamLogStore.Open(data.Path);
        store.Apply(
            1,
            new ExamLogChanges { Patients = Enumerable.Range(0, count).Select(n => Samples.Patient(n)).ToList() }
        );
        return store;
    }

    /// <summary>The plain meaning: each typed piece begins a piece of the number or the name.</summary>
    private static bool Fits(StoredPatient patient, string text)
    {
        static string[] Pieces(string all) => all.Split([' ', '-', '\''], StringSplitOptions.RemoveEmptyEntries);
        var pieces = Pieces($"{patient.Id} {patient.Name}");
        return Pieces(text)
            .All(typed => pieces.Any(piece => piece.StartsWith(typed, StringComparison.InvariantCultureIgnoreCase)));
    }
}
