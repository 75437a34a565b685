using PupilBridge.CommandLine;
using PupilBridge.Exams.Entries;
using PupilBridge.Exams.Entries.Codec;
using PupilBridge.Journal;
using PupilBridge.Tests.Support;

namespace PupilBridge.Tests.Verbs.Patients;

/// <summary><c>patients merge</c> and <c>patients part</c> on a data folder without a service.</summary>
public sealed class MergingTests : IDisposable
{
    private readonly TemporaryFolder folder = new();

    public void Dispose() => folder.Dispose();

    [Fact]
    public async Task Two_numbers_are_merged_and_parted_again()
    {
        Write(("Q-1001", null), ("Q-1002", null));

        var merged = await Merge("Q-1002", "Q-1001");
        Assert.Equal(ExitCode.Done, merged.Code);
        Assert.Contains("Q-1002 is merged into Q-1001", merged.Out, StringComparison.Ordinal);
        var history = await Run("patients", "history", "Q-1001");
        Assert.Equal(ExitCode.Done, history.Code);

        Assert.Equal(ExitCode.Refused, (await Merge("Q-1002", "Q-1001")).Code);
        Assert.Equal(ExitCode.Done, (await Part("Q-1002")).Code);
        var again = await Part("Q-1002");
        Assert.Equal(ExitCode.Refused, again.Code);
        Assert.Contains("parted already", again.Error, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Dates_of_birth_that_differ_must_be_said()
    {
        Write(("Q-1001", new(1980, 5, 17)), ("Q-1002", new(1981, 5, 17)));

        var refused = await Merge("Q-1002", "Q-1001");
        Assert.Equal(ExitCode.Refused, refused.Code);
        Assert.Contains("1981-05-17", refused.Error, StringComparison.Ordinal);
        Assert.Equal(ExitCode.Done, (await Merge("Q-1002", "Q-1001", "--despite-birth-dates")).Code);
    }

    [Fact]
    public async Task Why_must_be_said_and_the_number_be_known()
    {
        Write(("Q-1001", null));
        Assert.Equal(
            ExitCode.Usage,
            (await Run("patients", "merge", "Q-1002", "--into", "Q-1001", "--who", "AD")).Code
        );
        Assert.Equal(ExitCode.Refused, (await Merge("Q-1002", "Q-1001")).Code);
    }

    private Task<Outcome> Merge(string merged, string kept, params string[] more) =>
        Run(["patients", "merge", merged, "--into", kept, "--reason", "entered twice", "--who", "AD", .. more]);

    private Task<Outcome> Part(string merged) => Run("patients", "part", merged, "--reason", "a cousin", "--who", "AD");

    private Task<Outcome> Run(params string[] words) => Invoked.Run([.. words, "--data", folder.Path]);

    private void Write(params (string Number, DateOnly? Born)[] patients)
    {
        var options = new JournalOptions { Folder = new JournalFolder(folder.Path) };
        using var writer = JournalWriter.Open(RealDisk.Instance, options);
        foreach (var (number, born) in patients)
        {
            writer.Append(
                EntryCodec.Encode(
                    new PatientEntered
                    {
                        Id = EntryId.From(Guid.NewGuid()),
                        Who = new("MK"),
                        At = UtcTime.From(WrittenJournal.Morning),
                        ProgramVersion = "0.1.0",
                        Patient = new(number),
                        Details = new() { Name = "", BirthDate = born },
                    }
                )
            );
        }

        Assert.True(writer.Commit().IsDurable);
        Assert.True(writer.StopCleanly().IsDurable);
    }
}
