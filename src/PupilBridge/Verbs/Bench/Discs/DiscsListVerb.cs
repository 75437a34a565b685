using System.CommandLine;
using System.Globalization;
using PupilBridge.Clinic.Views;
using PupilBridge.CommandLine;
using PupilBridge.Desk;

namespace PupilBridge.Verbs.Bench.Discs;

/// <summary><c>calibration discs list</c>: the sets of reference discs.</summary>
internal sealed class DiscsListVerb : Verb
{
    private readonly Option<bool> json = CommonOptions.Json();

    public DiscsListVerb()
        : base("list", "Lists the sets of reference discs, with their certificates and every disc.")
    {
        Add(json);
        Example("pupilbridge calibration discs list", "all sets");
        EndsWith(DeskAccess.Exits);
        Does(ListAsync);
    }

    private async Task<ExitCode> ListAsync(Call call, CancellationToken cancel)
    {
        var access = await DeskAccess.OpenAsync(call, cancel).ConfigureAwait(false);
        await using (access.ConfigureAwait(false))
        {
            var sets = (await access.OverviewAsync(cancel).ConfigureAwait(false)).DiscSets;
            if (call.Get(json))
            {
                call.PrintJson(sets);
            }
            else if (sets.Count == 0)
            {
                call.Remark("No set of discs is entered; 'pupilbridge calibration discs add' enters one.");
            }
            else
            {
                foreach (var set in sets)
                {
                    Print(call, set);
                }
            }
        }

        return ExitCode.Done;
    }

    private static void Print(Call call, DiscSetView set)
    {
        var until = set.Expires is { } last ? $", to be used until {BenchNumbers.Day(last)}" : "";
        call.Print(
            $"{set.Name}: certificate {set.CertificateNumber} of {set.CertifiedBy}, {BenchNumbers.Day(set.Certified)}{until}"
                + $"{(set.IsExpired ? "; EXPIRED" : "")}; common u {Number(set.CommonUncertaintyMillimetres)} mm"
        );
        var table = new TextTable("disc", "diameter mm", "standard uncertainty mm");
        foreach (var disc in set.Discs)
        {
            table.Add(disc.Name, Number(disc.DiameterMillimetres), Number(disc.StandardUncertaintyMillimetres));
        }

        table.Print(call.Terminal);
        call.Print();
    }

    private static string Number(double value) => value.ToString("0.0####", CultureInfo.InvariantCulture);
}
