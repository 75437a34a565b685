using PupilBridge.Keys;

namespace PupilBridge.ExamLog.Tests.Support;

/// <summary>The two ways in which an exam log is kept, for tests that run over both.</summary>
internal static class Kind
{
    /// <summary>A master key of tests alone, the same in every process.</summary>
    public static KeyRing Keys { get; } =
        new(new MasterKeyId(9), [new MasterKey(new MasterKeyId(9), new byte[32], DateTimeOffset.UnixEpoch)]);

    public static ExamLogOptions Options(bool encrypt) => new() { Keys = Keys, Encrypt = encrypt };
}
