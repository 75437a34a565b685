using PupilBridge.Clinic.Entries;

namespace PupilBridge.Clinic.Tests.Desk;

/// <summary>One number is one person, unless someone says that what is known is wrong.</summary>
public sealed class PatientEnteringTests : IDisposable
{
    private static readonly DateOnly Born = new(1980, 5, 17);
    private readonly Support.Clinic clinic = new();

    [Theory]
    [InlineData("B. Crane", null)]
    [InlineData("A. Pilot", "1981-05-17")]
    [InlineData(null, "1981-05-17")]
    public async Task A_number_that_is_known_as_somebody_else_is_refused_with_both(string? name, string? born)
    {
        await clinic.CountsAsync(clinic.Patient("Q-1001", "A. Pilot", Born));

        var refused = Assert.IsType<EntryOutcome.Refused>(
            await clinic.EnterAsync(clinic.Patient("Q-1001", name, born is null ? null : DateOnly.Parse(born, null)))
        );

        Assert.StartsWith(
            "Patient Q-1001 is known as 'A. Pilot', born 1980-05-17, and this says",
            refused.Reason,
            StringComparison.Ordinal
        );
        Assert.EndsWith("Entered twice?", refused.Reason, StringComparison.Ordinal);
        Assert.Contains("another number", refused.NextStep, StringComparison.Ordinal);
        Assert.Contains("as a correction", refused.NextStep, StringComparison.Ordinal);
        Assert.Equal("A. Pilot", (await clinic.Records.ShowPatientAsync("Q-1001", default))!.Name);
    }

    [Fact]
    public async Task The_same_entry_as_a_correction_is_taken_as_given()
    {
        await clinic.CountsAsync(clinic.Patient("Q-1001", "A. Pilot", Born));
        var entry = clinic.Patient("Q-1001", "A. Pilot-Crane");
        Assert.IsType<EntryOutcome.Refused>(await clinic.EnterAsync(entry));

        await clinic.CountsAsync(entry with { IsCorrection = true });

        var patient = (await clinic.Records.ShowPatientAsync("Q-1001", default))!;
        Assert.Equal(("A. Pilot-Crane", null), (patient.Name, patient.BirthDate));
    }

    [Fact]
    public async Task What_is_left_empty_stays_as_known_and_capitals_do_not_matter()
    {
        await clinic.CountsAsync(clinic.Patient("Q-1001", "A. Pilot"));

        await clinic.CountsAsync(clinic.Patient("Q-1001", null, Born), clinic.Patient("Q-1001", "a.  pilot"));

        var patient = (await clinic.Records.ShowPatientAsync("Q-1001", default))!;
        Assert.Equal(("a.  pilot", Born), (patient.Name, patient.BirthDate));
    }

    [Fact]
    public async Task The_first_copy_is_one_however_often_it_is_sent()
    {
        var entry = clinic.Patient("Q-1001", "A. Pilot", Born);
        await clinic.CountsAsync(entry, clinic.Patient("Q-1001", "B. Crane") with { IsCorrection = true });

        Assert.IsType<EntryOutcome.AlreadyRecorded>(await clinic.EnterAsync(entry));
    }

    public void Dispose() => clinic.Dispose();
}
