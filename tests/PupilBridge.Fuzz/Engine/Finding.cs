namespace PupilBridge.Fuzz.Engine;

/// <summary>An oracle was contradicted: the product did with an input what it must not do.</summary>
/// <param name="rule">The rule that was broken, the same words for all inputs that break it.</param>
/// <param name="seen">What was seen with this input.</param>
internal sealed class Finding(string rule, string seen) : Exception($"{rule}: {seen}")
{
    /// <summary>The rule that was broken.</summary>
    public string Rule => rule;

    /// <summary>What an exception stands for when inputs are compared: the rule, or the kind of exception and where it was thrown.</summary>
    public static string KindOf(Exception e) =>
        e is Finding finding
            ? finding.Rule
            : $"{e.GetType().Name}{e.StackTrace?.Split('\n').FirstOrDefault()?.Split(" in ")[0]}";
}
