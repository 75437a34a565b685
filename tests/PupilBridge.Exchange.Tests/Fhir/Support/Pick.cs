using CsCheck;

namespace PupilBridge.Exchange.Tests.Fhir.Support;

/// <summary>One of some words.</summary>
internal static class Pick
{
    public static Gen<string> Of(params string[] words) => Gen.Int[0, words.Length - 1].Select(i => words[i]);
}
