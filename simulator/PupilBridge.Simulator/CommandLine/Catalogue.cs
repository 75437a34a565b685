using PupilBridge.Simulator.Devices;
using PupilBridge.Simulator.Faults;
using PupilBridge.Simulator.Scenarios;

namespace PupilBridge.Simulator.CommandLine;

/// <summary>Prints what can be asked for by name.</summary>
internal static class Catalogue
{
    public static void Print(TextWriter output)
    {
        output.WriteLine("Models:");
        foreach (var model in InstrumentModels.All)
        {
            var stops = string.Join(
                ", ",
                model.Stops.Select(s => $"{s.Mode} {s.Block}".Replace(" None", "", StringComparison.Ordinal))
            );
            output.WriteLine($"  {model.Name.ToLowerInvariant(), -18} {model.Abilities}; dial: {stops}");
        }

        output.WriteLine("Scenarios:");
        foreach (var scenario in NamedScenarios.All)
        {
            output.WriteLine(
                $"  {scenario.Name, -18} {scenario.PatientNumber}, {scenario.Patient.AgeYears:0} years, examiner {scenario.Examiner.Initials}"
            );
        }

        output.WriteLine("Faults:");
        foreach (var fault in FaultCatalogue.All)
        {
            output.WriteLine($"  {fault.Name, -18} {fault.What}{(fault.IsPartOfStorm ? "" : " (not part of 'all')")}");
        }
    }
}
