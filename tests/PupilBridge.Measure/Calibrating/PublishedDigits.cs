using PupilBridge.Constructed.Published;
using PupilBridge.Exams.Calibration;
using PupilBridge.Measure.Figures;

namespace PupilBridge.Measure.Calibrating;

/// <summary>
/// How many digits of published fits come out right: the certified values of NIST StRD Norris, and JCGM 100:2008, Annex H.3, as printed
/// and as exact fractions give it from the printed readings.
/// </summary>
internal static class PublishedDigits
{
    public static void Run(FigureFile figures)
    {
        var norris = Fewest("NIST StRD Norris", Norris.Compare(LineFit.Of(Norris.Points)));
        var thermometer = LineFit.Of(Thermometer.Points, Thermometer.Origin);
        var guide = Fewest("GUM H.3, exactly", Thermometer.Compare(thermometer));
        var printed = Thermometer.ComparePrinted(thermometer);
        foreach (var (value, text, found) in printed)
            System.Console.WriteLine(
                $"GUM H.3, printed  {value, -10} {text, 8} {found, 8} {(text == found ? "" : "DIFFERS")}"
            );
        figures.Set("norris_digits", norris);
        figures.Set("h3_digits", guide);
        figures.Set("h3_printed_values", (long)printed.Count);
        figures.Set("h3_printed_values_right", (long)printed.Count(one => one.Printed == one.Found));
    }

    private static double Fewest(string what, IReadOnlyList<(string Value, double Reference, double Found)> all)
    {
        var digits = all.Select(one => CorrectDigits.Of(one.Found, one.Reference)).ToArray();
        foreach (var (one, right) in all.Zip(digits))
            System.Console.WriteLine($"{what}  {one.Value, -22} {one.Found, 24:R} {right:0.0} digits");
        return digits.Min();
    }
}
