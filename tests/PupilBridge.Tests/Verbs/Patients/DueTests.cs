using PupilBridge.CommandLine;
using PupilBridge.Exams.Entries;
using PupilBridge.Exams.Entries.Codec;
using PupilBridge.Instrument;
using PupilBridge.Journal;
using PupilBridge.Tests.Support;

namespace PupilBridge.Tests.Verbs.Patients;

/// <summary><c>patients due</c>: by the years that are asked for, or by those of the settings; it erases nobody.</summary>
public sealed class DueTests : IDisposable
{
    private readonly TemporaryFolder folder = new();

    public DueTests()
    {
        // Q-1001 was here long ago and again lately; Q-1002 long ago only; Q-1003 lately only.
        var now = TimeProvider.System.GetUtcNow();
        Write(
            ("Q-1001", now.AddYears(-12)),
            ("Q-1002", now.AddYears(-11)),
            ("Q-1001", now.AddYears(-1)),
            ("Q-1003", now.AddYears(-2))
        );
    }

    public void Dispose() => folder.Dispose();

    [Fact]
    public async Task Without_years_anywhere_it_says_what_to_set()
    {
        var refused = await Due();
        Assert.Equal(ExitCode.Refused, refused.Code);
        Assert.Contains("Retention:Years", refused.Error, StringComparison.Ordinal);
    }

    [Fact]
    public async Task The_years_of_the_settings_count_and_those_that_are_asked_for_go_before_them()
    {
        await Set("10");
        Assert.Equal(["Q-1002"], await Patients());
        Assert.Equal(["Q-1002", "Q-1003", "Q-1001"], await Patients("--years", "1"));
        Assert.Empty(await Patients("--years", "20"));
        Assert.Equal(ExitCode.Usage, (await Due("--years", "0")).Code);
    }

    [Theory]
    [InlineData("0")]
    [InlineData("ten")]
    [InlineData("201")]
    public async Task Years_that_are_none_are_a_fault_of_the_settings(string years)
    {
        await Set(years);
        var refused = await Due();
        Assert.Equal(ExitCode.Configuration, refused.Code);
        Assert.Contains("Retention:Years", refused.Error, StringComparison.Ordinal);
    }

    private Task Set(string years) =>
        File.WriteAllTextAsync(folder.At("pupilbridge.json"), $$"""{ "Retention": { "Years": "{{years}}" } }""");

    private async Task<string[]> Patients(params string[] more)
    {
        var due = await Due(["--json", .. more]);
        Assert.Equal(ExitCode.Done, due.Code);
        using var document = System.Text.Json.JsonDocument.Parse(due.Out);
        return [.. document.RootElement.EnumerateArray().Select(one => one.GetProperty("patient").GetString()!)];
    }

    private Task<Outcome> Due(params string[] more) => Invoked.Run(["patients", "due", "--data", folder.Path, .. more]);

    private void Write(params (string Patient, DateTimeOffset At)[] visits)
    {
        var options = new JournalOptions { Folder = new JournalFolder(folder.Path) };
        using var writer = JournalWriter.Open(RealDisk.Instance, options);
        foreach (var (patient, at) in visits)
        {
            var opened = writer.Append(
                EntryCodec.Encode(
                    new ExamOpened
                    {
                        Id = EntryId.From(Guid.NewGuid()),
                        Who = new("MK"),
                        At = UtcTime.From(at),
                        ProgramVersion = "0.1.0",
                        Serial = new SerialNumber("QA-7"),
                        Patient = new(patient),
                    }
                )
            );
            writer.Append(
                EntryCodec.Encode(
                    new ExamMadeReady
                    {
                        Id = EntryId.From(Guid.NewGuid()),
                        Who = new("MK"),
                        At = UtcTime.From(at.AddMinutes(5)),
                        ProgramVersion = "0.1.0",
                        Exam = ExamId.OpenedBy(new JournalSequence(opened)),
                    }
                )
            );
        }

        Assert.True(writer.StopCleanly().IsDurable);
    }
}
