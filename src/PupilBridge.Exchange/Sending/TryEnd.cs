namespace PupilBridge.Exchange.Sending;

/// <summary>What came of a try that is not made again.</summary>
internal enum TryEnd
{
    /// <summary>The server was not asked, or it is not known whether it would have answered.</summary>
    NothingAsked,

    /// <summary>The server answered, so that it is there; it did not take the record.</summary>
    Answered,

    /// <summary>The server has the record.</summary>
    Sent,
}
