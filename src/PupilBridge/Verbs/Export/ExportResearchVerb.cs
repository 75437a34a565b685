using System.CommandLine;
using System.Security.Cryptography;
using System.Text;
using System.Text.Json;
using PupilBridge.Clinic;
using PupilBridge.CommandLine;
using PupilBridge.Data;
using PupilBridge.Desk;
using PupilBridge.Exchange.Research;
using PupilBridge.Verbs.Writing;

namespace PupilBridge.Verbs.Export;

/// <summary><c>export research</c>: signed exams without identities, with a report of how many share what others may know.</summary>
internal sealed class ExportResearchVerb : Verb
{
    private static readonly JsonSerializerOptions Readable = new(JsonSerializerDefaults.Web) { WriteIndented = true };

    private readonly ExportSpan span = new();
    private readonly Option<string> output = new("--output", "-o")
    {
        Description = "The file to write; the report goes into FILE.report.json beside it.",
        HelpName = "FILE",
        Required = true,
    };
    private readonly Option<bool> force = new("--force") { Description = "Write over files that are there already." };

    private readonly Option<string?> study = new("--study")
    {
        Description =
            "A name for the study: exports of the same study give a patient the same name and shift. Without it every export has its own.",
        HelpName = "NAME",
    };

    private readonly Option<int> least = new("--least-k")
    {
        Description = "Write nothing if fewer subjects than this share what others may know of them.",
        HelpName = "K",
        DefaultValueFactory = _ => 5,
    };

    public ExportResearchVerb()
        : base(
            "research",
            "Writes signed exams without identities: other names, shifted dates, ages in bands, no free text. Whether that is enough is for "
                + "the clinic and its local policy to decide."
        )
    {
        span.AddTo(this);
        foreach (var option in (ReadOnlySpan<Option>)[output, force, study, least])
        {
            Add(option);
        }

        Example("pupilbridge export research --output study.csv --study harbour", "signed exams of everybody");
        Example(
            "pupilbridge export research --table readings --format jsonl --output readings.jsonl --least-k 10",
            "captures, and nothing unless ten subjects share each class"
        );
        EndsWith([.. DeskAccess.Exits, ExitCode.Configuration]);
        Does(WriteAsync);
    }

    private async Task<ExitCode> WriteAsync(Call call, CancellationToken cancel)
    {
        var (path, mayReplace) = (call.Get(output)!, call.Get(force));
        var exams = span.Span(call);
        var access = await DeskAccess.OpenAsync(call, cancel).ConfigureAwait(false);
        await using (access.ConfigureAwait(false))
        {
            var names = Names(call);
            var reporting = GrowingFile.Begin(path + ".report.json", mayReplace);
            await using (reporting.ConfigureAwait(false))
            {
                var table = GrowingFile.Begin(path, mayReplace);
                await using (table.ConfigureAwait(false))
                {
                    var report = await table
                        .FillAsync(async to =>
                        {
                            var made = await access
                                .ReadPagesAsync(pages =>
                                    ResearchExport.WriteAsync(
                                        span.IsReadings(call),
                                        names,
                                        pages,
                                        exams,
                                        span.Format(call),
                                        to,
                                        cancel
                                    )
                                )
                                .ConfigureAwait(false);
                            return made.K >= call.Get(least) || made.Exams == 0
                                ? made
                                : throw TooFew(made, call.Get(least));
                        })
                        .ConfigureAwait(false);
                    await reporting.FillAsync(to => ReportAsync(to, report, cancel)).ConfigureAwait(false);
                    Tell(call, report);
                }
            }
        }

        return ExitCode.Done;
    }

    private Pseudonyms Names(Call call)
    {
        using var random = RandomNumberGenerator.Create();
        try
        {
            var secret = ResearchSecret.ReadOrMake(DataFolderChoice.For(call), random);
            return new Pseudonyms(secret, call.Get(study) is { } name ? $"study\n{name.Trim()}" : Fresh(random));
        }
        catch (EntryProblemException problem)
        {
            throw new CommandFailure(ExitCode.Refused, problem.Message);
        }
        catch (Exception fault) when (fault is IOException or UnauthorizedAccessException)
        {
            throw new CommandFailure(
                ExitCode.Storage,
                $"The secret of exports for research cannot be used: {fault.Message}",
                "Run the command as the account that the service runs under."
            );
        }
    }

    private static string Fresh(RandomNumberGenerator random)
    {
        var salt = new byte[16];
        random.GetBytes(salt);
        return $"once\n{Convert.ToHexStringLower(salt)}";
    }

    private static async Task<int> ReportAsync(Stream to, ResearchReport report, CancellationToken cancel)
    {
        await to.WriteAsync(Encoding.UTF8.GetBytes(JsonSerializer.Serialize(report, Readable) + "\n"), cancel)
            .ConfigureAwait(false);
        return report.K;
    }

    private static CommandFailure TooFew(ResearchReport report, int least) =>
        new(
            ExitCode.Refused,
            $"The smallest class has {report.K} subjects ({Words(report.Classes[0])}), fewer than {least}; nothing was written.",
            "Take a longer span, leave those exams out, or allow it with --least-k if local policy does."
        );

    private static void Tell(Call call, ResearchReport report)
    {
        call.Remark(
            $"{report.Rows} rows from {report.Exams} exams of {report.Subjects} subjects; {report.LeftOut} exams left out."
        );
        if (report.Exams > 0)
        {
            call.Remark($"k = {report.K}: the smallest class is {Words(report.Classes[0])}.");
        }
    }

    private static string Words(AnonymitySize one) =>
        $"age {one.Class.AgeBand ?? "not known"}, shifted year {one.Class.Year}, "
        + (one.Class.HasEyeStatus ? "with a state of an eye" : "no state of an eye");
}
