using System.CommandLine;
using System.Globalization;
using PupilBridge.CommandLine;
using PupilBridge.Exams.ExpectedSizes;

namespace PupilBridge.Verbs.ExpectSize;

/// <summary><c>expect-size</c>: the size of a pupil that age and light lead one to expect.</summary>
internal sealed class ExpectSizeVerb : Verb
{
    private readonly Option<double?> luminance = NumberOption.One(
        "--luminance",
        "CDM2",
        "How bright the field looks, in cd/m². Lux does not give it."
    );

    private readonly Option<double?> area = NumberOption.One(
        "--area",
        "DEG2",
        "The area of the field, in square degrees; a disc w degrees across has 0.785 w²."
    );

    private readonly Option<double?> age = NumberOption.One("--age", "Y", "The person's age in years, 1 to 83.");

    private readonly Option<int> eyes = new("--eyes")
    {
        Description = "How many eyes see the field: 1 or 2.",
        HelpName = "1|2",
        Required = true,
    };

    private readonly Option<bool> json = CommonOptions.Json();

    public ExpectSizeVerb()
        : base(
            "expect-size",
            "Computes the pupil diameter that age and light lead one to expect (Watson and Yellott 2012). People differ "
                + "widely from it: it is context for a measured size, neither a pass nor a fail."
        )
    {
        foreach (var option in (Option[])[luminance, area, age])
        {
            option.Required = true;
        }

        eyes.AcceptOnlyFromAmong("1", "2");
        Add(luminance);
        Add(area);
        Add(age);
        Add(eyes);
        Add(json);
        Example(
            "pupilbridge expect-size --luminance 1 --area 2827.43 --age 30 --eyes 2",
            "a field 60° across at 1 cd/m², seen with both eyes at 30 years"
        );
        Example(
            "pupilbridge expect-size --luminance 100 --area 78.54 --age 52 --eyes 1 --json",
            "a field 10° across seen with one eye, for a program"
        );
        EndsWith(ExitCode.Refused);
        Does((call, _) => Task.FromResult(Expect(call)));
    }

    private ExitCode Expect(Call call)
    {
        var field = new AdaptingField(call.Get(luminance)!.Value, call.Get(area)!.Value, call.Get(eyes));
        var years = call.Get(age)!.Value;
        var faults = ExpectedSizeLimits.Faults(field, years);
        if (faults.Count > 0)
        {
            throw new CommandFailure(
                ExitCode.Refused,
                string.Join(' ', faults.Select(fault => ExpectSizeWords.Of(fault, field, years))),
                "Nothing is computed outside the formula's limits: a number from there would look as good as any other."
            );
        }

        var size = UnifiedFormula.Expect(field, years);
        if (call.Get(json))
        {
            call.PrintJson(
                new ExpectedSizeJson(size.Millimetres, size.Form, field.EffectiveFlux, field.AcrossAsDiscDegrees)
            );
        }
        else
        {
            Print(call, field, size);
        }

        foreach (var caution in size.Cautions)
        {
            call.Remark(ExpectSizeWords.Of(caution));
        }

        return ExitCode.Done;
    }

    private static void Print(Call call, AdaptingField field, ExpectedSize size)
    {
        call.Print(string.Create(CultureInfo.InvariantCulture, $"expected diameter  {size.Millimetres:0.00} mm"));
        call.Print(
            string.Create(
                CultureInfo.InvariantCulture,
                $"light              {field.EffectiveFlux:0.######} cd/m²·deg² effective, a field as large as a disc "
            ) + string.Create(CultureInfo.InvariantCulture, $"{field.AcrossAsDiscDegrees:0.0}° across")
        );
        call.Print("source             " + ExpectSizeWords.Source(size.Form));
        call.Print("Assumes far fixation at the centre of an even field. Healthy people of one age differ widely.");
    }
}
