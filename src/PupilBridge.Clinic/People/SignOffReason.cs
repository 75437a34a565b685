namespace PupilBridge.Clinic.People;

/// <summary>Why somebody is signed off.</summary>
public enum SignOffReason
{
    /// <summary>The person did it, here or from another browser.</summary>
    Person,

    /// <summary>Nothing was done for long.</summary>
    Idle,

    /// <summary>The person had been signed in for as long as anybody may without giving the password again.</summary>
    LongestLife,
}
