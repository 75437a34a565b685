using System.CommandLine;
using System.Globalization;
using System.Text.Json;
using PupilBridge.CommandLine;
using PupilBridge.Data;
using PupilBridge.Desk;
using PupilBridge.Journal;
using PupilBridge.Verbs.Writing;

namespace PupilBridge.Verbs.Journal;

/// <summary><c>journal head</c>: the head of the journal, to be kept where whoever alters the journal does not reach it.</summary>
internal sealed class JournalHeadVerb : Verb
{
    private static readonly JsonSerializerOptions Lines = new(JsonSerializerDefaults.Web)
    {
        WriteIndented = true,
        NewLine = "\n",
    };

    private readonly OutputFile output = new();
    private readonly Option<bool> json = CommonOptions.Json();

    public JournalHeadVerb()
        : base(
            "head",
            "Prints the head of the journal: the last sequence and the chain's value there. Kept elsewhere, it shows later that "
                + "nothing up to it was altered and the end was not cut off. Works beside a running service."
        )
    {
        Add(json);
        Add(output.Output);
        output.Output.Aliases.Add("--out");
        Add(output.Force);
        Example("pupilbridge journal head", "prints the head, in groups for reading aloud");
        Example(
            "pupilbridge journal head --output /media/usb/head.txt",
            "keeps it elsewhere, for 'journal verify --head-file'"
        );
        EndsWith(ExitCode.NotFound, ExitCode.Damaged, ExitCode.NoService, ExitCode.Storage);
        Does(PrintAsync);
    }

    private async Task<ExitCode> PrintAsync(Call call, CancellationToken cancel)
    {
        var folder = JournalPlace.Existing(DataFolderChoice.For(call));
        using var service = await DeskAccess.TryConnectAsync(folder.DataFolder, cancel).ConfigureAwait(false);
        var head = service is null
            ? OfFiles(folder)
            : HeadText.Of(await service.Desk.HeadAsync(cancel).ConfigureAwait(false));
        var at = call.Time.GetUtcNow();
        await output.WriteAsync(call, call.Get(json) ? Document(head, at) : Text(head, at)).ConfigureAwait(false);
        return ExitCode.Done;
    }

    /// <summary>The head as the files tell it, where no service runs.</summary>
    /// <exception cref="CommandFailure">The journal is empty, or its end damaged.</exception>
    internal static JournalPosition OfFiles(JournalFolder folder) =>
        JournalEnd.Read(RealDisk.Instance, folder) switch
        {
            null => throw new CommandFailure(
                ExitCode.NotFound,
                $"The journal in {folder.Segments} is empty.",
                "Start the service once with 'pupilbridge serve'."
            ),
            { IsSound: false } => throw new CommandFailure(
                ExitCode.Damaged,
                $"The end of the journal in {folder.Segments} is damaged; it has no head to rely on.",
                "See what is damaged with 'pupilbridge journal verify', and compare with a backup."
            ),
            { Position: var end } => end,
        };

    private static string Text(JournalPosition head, DateTimeOffset at) =>
        string.Create(
            CultureInfo.InvariantCulture,
            $"Head of the journal on {at.UtcDateTime:yyyy-MM-dd HH:mm:ss} UTC\n  sequence  {head.Sequence}\n"
        )
        + string.Concat(HeadText.Grouped(head.Hash).Select((line, i) => $"  {(i == 0 ? "chain" : ""), -8}  {line}\n"))
        + $"In one piece: {head}\n"
        + "Keep it where whoever could alter the journal does not reach it. Later, 'pupilbridge journal verify --head' with it tells\n"
        + "whether anything up to here was altered or cut off.\n";

    private static string Document(JournalPosition head, DateTimeOffset at) =>
        JsonSerializer.Serialize(
            new
            {
                head.Sequence,
                Chain = head.Hash.ToString(),
                Head = head.ToString(),
                At = at.UtcDateTime,
            },
            Lines
        ) + "\n";
}
