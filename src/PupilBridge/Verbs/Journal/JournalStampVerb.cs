using System.Globalization;
using PupilBridge.CommandLine;
using PupilBridge.Configuration;
using PupilBridge.Data;
using PupilBridge.Desk;
using PupilBridge.Safekeeping.Stamps;

namespace PupilBridge.Verbs.Journal;

/// <summary><c>journal stamp</c>: has the head of the journal stamped by the authority that the settings name.</summary>
internal sealed class JournalStampVerb : Verb
{
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(30);

    public JournalStampVerb()
        : base(
            "stamp",
            "Has the head of the journal stamped by the time-stamping authority (RFC 3161) of the settings, and keeps the stamp beside the "
                + "journal. Only a hash leaves the house. The running service does so once a day."
        )
    {
        Example("pupilbridge journal stamp", "stamps the head now");
        EndsWith(
            ExitCode.NotFound,
            ExitCode.Refused,
            ExitCode.Configuration,
            ExitCode.Damaged,
            ExitCode.NoService,
            ExitCode.Storage
        );
        Does(StampAsync);
    }

    private static async Task<ExitCode> StampAsync(Call call, CancellationToken cancel)
    {
        var folder = JournalPlace.Existing(DataFolderChoice.For(call));
        var settings = Settings.Read(folder.DataFolder, new Dictionary<string, string?>()).OrFail();
        var address =
            StampOptions.AuthorityOf(settings.Root)
            ?? throw new CommandFailure(
                ExitCode.Refused,
                "No time-stamping authority is set.",
                "Set Stamps:Address to the address of one, in pupilbridge.json of the data folder."
            );
        using var service = await DeskAccess.TryConnectAsync(folder.DataFolder, cancel).ConfigureAwait(false);
        var head = service is null
            ? JournalHeadVerb.OfFiles(folder)
            : HeadText.Of(await service.Desk.HeadAsync(cancel).ConfigureAwait(false));
        using var http = new HttpClient { Timeout = Patience };
        try
        {
            var token = await new StampAuthority(http, address).StampAsync(head, cancel).ConfigureAwait(false);
            var path = new StampFolder(folder.DataFolder).Keep(head, token);
            call.Print(
                string.Create(CultureInfo.InvariantCulture, $"The head at sequence {head.Sequence} is stamped: {path}")
            );
        }
        catch (StampException fault)
        {
            throw new CommandFailure(ExitCode.Refused, fault.Message, "Nothing else is concerned. Try again later.");
        }

        return ExitCode.Done;
    }
}
