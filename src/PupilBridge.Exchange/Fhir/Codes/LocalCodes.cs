using System.Collections.Frozen;

namespace PupilBridge.Exchange.Fhir.Codes;

/// <summary>
/// Our own codes, for all that LOINC and SNOMED CT were not seen to have: light, consensual and near response, the outcome of the
/// swinging-flashlight test, the verdict of a criterion. docs/fhir has them as a CodeSystem.
/// </summary>
public static class LocalCodes
{
    private static readonly FrozenDictionary<string, LocalCode> ByCode = Table().ToFrozenDictionary(c => c.Code);

    /// <summary>All codes.</summary>
    public static IReadOnlyList<LocalCode> All { get; } = Table();

    /// <summary>Whether a code is one of ours.</summary>
    /// <param name="code">The code.</param>
    public static bool IsKnown(string code) => ByCode.ContainsKey(code);

    /// <summary>A code of ours.</summary>
    /// <param name="code">The code.</param>
    /// <exception cref="KeyNotFoundException">There is no such code.</exception>
    public static LocalCode Find(string code) => ByCode[code];

    private static LocalCode[] Table() =>
        [.. MeasureCodes.All, .. JudgementCodes.All, .. ConditionCodes.All, .. RecordCodes.All];
}
