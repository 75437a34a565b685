using PupilBridge.Clinic.Entries;
using PupilBridge.Exams.Entries;
using PupilBridge.Exams.Entries.Sealing;
using PupilBridge.Worker.Erasing;

namespace PupilBridge.Exchange.Tests.Erasing;

/// <summary>Erasing a patient at the desk: what is erased together, and what is refused.</summary>
public sealed class ErasingDeskTests
{
    private const string One = "Q-1001-GOESAWAY";
    private const string Other = "Q-1002-GOESAWAY";
    private static readonly DateOnly Born = new(1980, 5, 17);

    [Fact]
    public async Task Numbers_that_were_merged_are_one_person_and_go_together_under_the_one_that_goes_on()
    {
        await using var house = new ErasingHouse();
        await house.Exams.NameAsync(One, "Harbour Goesaway", Born);
        await house.Exams.NameAsync(Other, "Harbour Goesaway", Born);
        var exams = new[] { await house.Exams.SignAsync(One), await house.Exams.SignAsync(Other) };
        Assert.IsType<EntryOutcome.Recorded>(await house.EnterAsync(house.Merge(Other, One)));

        Assert.Contains($"Erase {One}", await house.RefusedAsync(house.Order(Other)), StringComparison.Ordinal);
        var told = await house.ErasedAsync(One);

        Assert.Contains("2 number(s)", told, StringComparison.Ordinal);
        Assert.Contains("of 2 exam(s) 2 signed record(s)", told, StringComparison.Ordinal);
        foreach (var exam in exams)
        {
            Assert.NotNull(house.Exams.Exam(exam).Erasure);
            Assert.True(SealedNumbers.IsErased(house.Exams.Exam(exam).Patient!.Value));
        }

        using var records = house.Records();
        Assert.Empty((await records.FindPatientsAsync("Q-100", null, 50, default)).Patients);
        Assert.Empty((await records.FindPatientsAsync("Harbour", null, 50, default)).Patients);
        house.NowhereOnDisk(One, Other, "Goesaway", "1980-05-17");
    }

    [Fact]
    public async Task While_an_exam_of_the_patient_is_open_it_is_refused_by_name_and_afterwards_it_is_done()
    {
        await using var house = new ErasingHouse();
        var signed = await house.Exams.SignAsync(One);
        var open = await house.Exams.OpenAsync(One);

        var refused = await house.RefusedAsync(house.Order(One));
        Assert.Contains($"exam {open} on QA-0001 is open", refused, StringComparison.Ordinal);
        Assert.Null(house.Exams.Exam(signed).Erasure);

        await house.Exams.MakeReadyAsync(open);
        Assert.Contains("of 2 exam(s)", await house.ErasedAsync(One), StringComparison.Ordinal);
        Assert.NotNull(house.Exams.Exam(open).Erasure);
        house.NowhereOnDisk(One);
    }

    [Theory]
    [InlineData(SealingChoice.Never)]
    [InlineData(SealingChoice.WhenKeyed)]
    public async Task Where_nothing_is_sealed_it_is_refused_with_what_can_be_done_and_nothing_changes(
        SealingChoice sealing
    )
    {
        await using var house = new ErasingHouse(sealing);
        var exam = await house.Exams.SignAsync(One);
        var refused = await house.RefusedAsync(house.Order(One));
        Assert.Contains("Bridge:Sealing", refused, StringComparison.Ordinal);
        Assert.Equal(new PatientId(One), house.Exams.Exam(exam).Patient);
        Assert.NotNull(house.Exams.Exam(exam).SignedVersions[0].Record);
    }

    [Fact]
    public async Task A_second_order_finds_nothing_and_the_same_one_sent_again_is_known()
    {
        await using var house = new ErasingHouse();
        var exam = await house.Exams.SignAsync(One);
        var order = house.Order(One);
        Assert.IsType<EntryOutcome.Recorded>(await house.EnterAsync(order));
        var first = house.Exams.Exam(exam).Erasure!;

        Assert.IsType<EntryOutcome.AlreadyRecorded>(await house.EnterAsync(order));
        var refused = await house.RefusedAsync(house.Order(One));
        Assert.Contains("Nothing that can be erased is known", refused, StringComparison.Ordinal);
        var number = house.Exams.Exam(exam).Patient!.Value.Value;
        Assert.Contains(
            "Nothing that can be erased",
            await house.RefusedAsync(house.Order(number)),
            StringComparison.Ordinal
        );
        Assert.Equal(first, house.Exams.Exam(exam).Erasure);
    }

    [Fact]
    public async Task A_number_that_nobody_has_is_refused_and_nobody_else_is_touched()
    {
        await using var house = new ErasingHouse();
        var exam = await house.Exams.SignAsync(One);
        var refused = await house.RefusedAsync(house.Order("Q-1001"));
        Assert.Contains("Nothing that can be erased is known under Q-1001", refused, StringComparison.Ordinal);
        Assert.Null(house.Exams.Exam(exam).Erasure);
    }

    [Fact]
    public async Task A_reason_that_says_who_it_is_is_refused_since_it_stays_readable()
    {
        await using var house = new ErasingHouse();
        await house.Exams.NameAsync(One, "Harbour Goesaway", Born);
        await house.Exams.SignAsync(One);
        foreach (var reason in (string[])[$"asked for by {One}", "Mr Goesaway wants it"])
        {
            Assert.Contains(
                "stay readable",
                await house.RefusedAsync(house.Order(One, reason)),
                StringComparison.Ordinal
            );
        }
    }
}
