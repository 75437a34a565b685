namespace PupilBridge.Worker.Erasing;

/// <summary>The choices of sealing in the words of the settings.</summary>
internal static class SealingWords
{
    /// <summary>A choice in a word.</summary>
    public static string Of(SealingChoice choice) =>
        choice switch
        {
            SealingChoice.Always => "always",
            SealingChoice.Never => "never",
            _ => "when-keyed",
        };

    /// <summary>The choice that a word names; null for none.</summary>
    public static SealingChoice? Read(string word) =>
        Enum.GetValues<SealingChoice>().Cast<SealingChoice?>().FirstOrDefault(choice => Of(choice!.Value) == word);
}
