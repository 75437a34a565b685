using Microsoft.Extensions.Time.Testing;

namespace PupilBridge.Keys.Tests;

public sealed class KeyRingTests
{
    private readonly FakeTimeProvider time = new(TestKeys.Made);

    [Theory]
    [InlineData(1)]
    [InlineData(7)]
    [InlineData(8)]
    [InlineData(32)]
    [InlineData(64)]
    public void What_was_wrapped_opens(int length)
    {
        var ring = KeyRing.Create(time);
        var key = Enumerable.Range(0, length).Select(n => (byte)(n + 1)).ToArray();
        Assert.Equal(key, ring.Unwrap(ring.Wrap(key)));
    }

    [Fact]
    public void An_older_key_still_opens_and_the_newest_wraps()
    {
        var old = KeyRing.Create(time);
        var wrapped = old.Wrap(new byte[32]);
        var both = old.With(MasterKey.Create(time));

        Assert.Equal(new byte[32], both.Unwrap(wrapped));
        Assert.NotEqual(old.Current, both.Current);
        Assert.Equal(both.Current, KeyRing.WrappedUnder(both.Wrap(new byte[32])));
        Assert.Equal(2, both.Keys.Count);
    }

    [Fact]
    public void A_missing_master_key_is_named()
    {
        var wrapped = TestKeys.Ring(1).Wrap(new byte[32]);
        var refusal = Assert.Throws<MasterKeyMissingException>(() => TestKeys.Ring(2).Unwrap(wrapped));
        Assert.Equal(new MasterKeyId(1), refusal.Id);
        Assert.Contains("0000000000000001", refusal.Message, StringComparison.Ordinal);
        Assert.Contains("0000000000000002", refusal.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Another_key_of_the_same_name_is_refused()
    {
        var wrapped = TestKeys.Ring(1).Wrap(new byte[32]);
        var other = new KeyRing(new MasterKeyId(1), [TestKeys.Master(1, new byte[32])]);
        var refusal = Assert.Throws<KeyException>(() => other.Unwrap(wrapped));
        Assert.Contains("0000000000000001", refusal.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Every_altered_bit_of_a_wrapped_key_is_noticed()
    {
        var ring = TestKeys.Ring(1);
        var wrapped = ring.Wrap(new byte[32]);
        for (var bit = 0; bit < wrapped.Length * 8; bit++)
        {
            var altered = wrapped.ToArray();
            altered[bit / 8] ^= (byte)(1 << (bit % 8));
            Assert.ThrowsAny<KeyException>(() => ring.Unwrap(altered));
        }
    }

    [Fact]
    public void Every_cut_of_a_wrapped_key_is_noticed()
    {
        var ring = TestKeys.Ring(1);
        var wrapped = ring.Wrap(new byte[32]);
        for (var length = 0; length < wrapped.Length; length++)
        {
            Assert.ThrowsAny<KeyException>(() => ring.Unwrap(wrapped.AsSpan(0, length)));
        }
    }

    [Fact]
    public void Only_keys_that_are_needed_are_kept()
    {
        var ring = TestKeys.Ring(1).With(TestKeys.Master(2)).With(TestKeys.Master(3));
        var kept = ring.Keeping(new HashSet<MasterKeyId> { new(1) });
        Assert.Equal([new MasterKeyId(1), new MasterKeyId(3)], kept.Keys.Select(key => key.Id));
        Assert.Equal(new MasterKeyId(3), kept.Current);
    }

    [Fact]
    public void A_key_prints_its_name_and_never_itself()
    {
        var secret = Enumerable.Repeat((byte)0xAB, 32).ToArray();
        Assert.Equal("master key 0000000000000009", TestKeys.Master(9, secret).ToString());
    }
}
