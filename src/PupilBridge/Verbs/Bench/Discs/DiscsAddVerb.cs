using System.CommandLine;
using PupilBridge.Clinic.Entries;
using PupilBridge.CommandLine;
using PupilBridge.Verbs.Entering;

namespace PupilBridge.Verbs.Bench.Discs;

/// <summary><c>calibration discs add</c>: a set of reference discs as its certificate describes it.</summary>
internal sealed class DiscsAddVerb : EnteringVerb
{
    private readonly Argument<string> table = new("file")
    {
        Description =
            $"The discs: CSV with the columns {DiscTable.Name}, {DiscTable.Diameter}, {DiscTable.Uncertainty}; the standard "
            + "uncertainty is the certificate's expanded one divided by its coverage factor.",
        HelpName = "FILE.csv",
    };

    private readonly Option<string> name = new("--name")
    {
        Description = "The clinic's name for the set.",
        HelpName = "SET",
        Required = true,
    };

    private readonly Option<string> certificate = new("--certificate")
    {
        Description = "The number of the discs' own certificate.",
        HelpName = "NUMBER",
        Required = true,
    };

    private readonly Option<string> issuer = new("--issuer")
    {
        Description = "Who certified the discs.",
        HelpName = "TEXT",
        Required = true,
    };

    private readonly Option<DateOnly> certified = new("--certified")
    {
        Description = "The day of that certificate.",
        HelpName = "YYYY-MM-DD",
        Required = true,
    };

    private readonly Option<DateOnly?> expires = new("--expires")
    {
        Description = "The last day on which the discs may be used; without it the certificate sets none.",
        HelpName = "YYYY-MM-DD",
    };

    private readonly Option<double?> commonU = NumberOption.One(
        "--common-u",
        "U",
        "The standard uncertainty that all diameters share, in mm; 0 by default."
    );

    public DiscsAddVerb()
        : base(
            "add",
            "Enters a set of reference discs with its certificate. A set of the same name takes the place of the earlier one; runs and "
                + "certificates keep the one that they used."
        )
    {
        Add(table);
        foreach (var option in (ReadOnlySpan<Option>)[name, certificate, issuer, certified, expires, commonU])
        {
            Add(option);
        }

        Example(
            "pupilbridge calibration discs add discs.csv --name quay --certificate D-2026-17 --issuer \"the metrology laboratory\" "
                + "--certified 2026-01-15 --expires 2028-01-14 --common-u 0.002 --who TE",
            "the discs of discs.csv as the set 'quay'"
        );
        EndsWith(ExitCode.NotFound, ExitCode.Refused, ExitCode.Storage);
    }

    /// <inheritdoc/>
    protected override Task<IReadOnlyList<DeskEntry>> EntriesAsync(
        Call call,
        EntryStamp stamp,
        EntrySending sending,
        CancellationToken cancel
    ) =>
        Task.FromResult<IReadOnlyList<DeskEntry>>([
            new DiscSetEntry
            {
                EntryId = Typist.NewId(),
                Who = stamp.Who,
                At = stamp.At,
                ProgramVersion = stamp.ProgramVersion,
                Name = call.Get(name)!,
                CertificateNumber = call.Get(certificate)!,
                CertifiedBy = call.Get(issuer)!,
                Certified = call.Get(certified),
                Expires = call.Get(expires),
                CommonUncertaintyMillimetres = call.Get(commonU) ?? 0,
                Discs = DiscTable.Read(call.Get(table)!),
            },
        ]);

    /// <inheritdoc/>
    protected override string Words(DeskEntry entry) =>
        entry is DiscSetEntry set ? $"set '{set.Name}' of {set.Discs.Count} discs" : "";
}
