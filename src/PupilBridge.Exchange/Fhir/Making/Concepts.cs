using Hl7.Fhir.Model;
using PupilBridge.Exchange.Fhir.Codes;
using PupilBridge.Instrument;

namespace PupilBridge.Exchange.Fhir.Making;

/// <summary>Codeable concepts: ours, with what the code map has beside it in front.</summary>
/// <param name="settings">Systems and map.</param>
internal sealed class Concepts(FhirSettings settings)
{
    public const string UcumSystem = "http://unitsofmeasure.org";

    private readonly string system = settings.CodeSystem("pupil-exam");
    private readonly string criteria = settings.CodeSystem("pupil-criteria");

    /// <summary>A concept of ours.</summary>
    /// <param name="code">Our code.</param>
    /// <param name="side">The side it is said of; null for none.</param>
    /// <param name="text">The words for a person; null for the code's own.</param>
    public CodeableConcept Of(string code, Eye? side = null, string? text = null) =>
        Make(code, LocalCodes.Find(code), side, text);

    /// <summary>The pupil of one eye.</summary>
    public CodeableConcept Pupil(Eye eye) => Make("pupil", LocalCodes.Find($"pupil-{Word(eye)}"), eye, null);

    /// <summary>A side as a value.</summary>
    public CodeableConcept Side(Eye eye) => Make("side", LocalCodes.Find(Word(eye)), eye, null);

    /// <summary>A criterion.</summary>
    public CodeableConcept Criterion(string id, string text) =>
        new() { Coding = [new Coding(criteria, id)], Text = text };

    /// <summary>A concept of a system of FHIR itself, with ours for what it does not tell apart.</summary>
    public CodeableConcept Absent(string standard, string ours) =>
        new()
        {
            Coding =
            [
                new Coding("http://terminology.hl7.org/CodeSystem/data-absent-reason", standard),
                Local(LocalCodes.Find(ours)),
            ],
            Text = LocalCodes.Find(ours).Display,
        };

    /// <summary>A quantity with a unit of UCUM.</summary>
    public static Quantity Quantity(decimal value, string unit) =>
        new()
        {
            Value = value,
            Unit = unit,
            System = UcumSystem,
            Code = unit,
        };

    /// <summary>A length of whole micrometres in mm with three places.</summary>
    public static Quantity Millimetres(int micrometres) =>
        Quantity(new decimal(Math.Abs(micrometres), 0, 0, micrometres < 0, 3), "mm");

    public static string Word(Eye eye) => eye == Eye.Right ? "right" : "left";

    private CodeableConcept Make(string concept, LocalCode ours, Eye? side, string? text) =>
        new()
        {
            Coding =
            [
                .. settings.Codes.Of(concept, side).Select(c => new Coding(c.System, c.Code, c.Display)),
                Local(ours),
            ],
            Text = text ?? ours.Display,
        };

    private Coding Local(LocalCode code) => new(system, code.Code, code.Display);
}
