namespace PupilBridge.Worker.Erasing;

/// <summary>Whether what identifies patients is sealed in the journal under keys of its own.</summary>
public enum SealingChoice
{
    /// <summary>Where a master key is there.</summary>
    WhenKeyed = 0,

    /// <summary>Always. Without a master key the keys lie in their folder as they are: erasing works, secrecy is the disk's matter.</summary>
    Always = 1,

    /// <summary>Never; what was sealed before stays readable. Nothing can be erased of what is entered from then on.</summary>
    Never = 2,
}
