namespace PupilBridge.Keys.Tests;

internal static class TestKeys
{
    public static readonly DateTimeOffset Made = new(2026, 3, 2, 8, 0, 0, TimeSpan.Zero);

    public static MasterKey Master(ulong id, byte[] secret) => new(new MasterKeyId(id), secret, Made);

    public static MasterKey Master(ulong id) =>
        Master(id, [.. Enumerable.Range(0, 32).Select(n => (byte)((n * 7) + (int)id))]);

    public static KeyRing Ring(ulong id) => new(new MasterKeyId(id), [Master(id)]);
}
