using Microsoft.Extensions.Time.Testing;
using PupilBridge.Keys.Files;
using PupilBridge.Keys.Tests.Files;

namespace PupilBridge.Keys.Tests;

/// <summary>The master key is changed; whatever fails on the way, nothing that was wrapped is ever out of reach.</summary>
public sealed class KeyRotationTests
{
    private const string Path = "/quay/keys/master.json";
    private readonly FakeTimeProvider time = new(TestKeys.Made);

    [Fact]
    public void The_new_key_wraps_everything_and_the_old_one_is_gone()
    {
        var disk = new FailingKeyDisk();
        var file = MasterKeyFile.On(disk, Path);
        var old = file.ReadOrCreate(time);
        var holder = new Holder(old, 5);
        time.Advance(TimeSpan.FromDays(1));

        var outcome = KeyRotation.Run(file, [holder], time);

        Assert.Equal([old.Current], outcome.NotNeeded);
        Assert.Equal(5, outcome.Wrapped);
        Assert.Equal(outcome.Current, Assert.Single(file.Read().Keys).Id);
        Assert.True(holder.OpensWith(file.Read()));
        Assert.False(holder.OpensWith(old));
    }

    [Fact]
    public void Whichever_step_fails_everything_opens_with_the_key_file_and_the_next_rotation_ends_it()
    {
        var failed = 0;
        for (var n = 1; ; n++)
        {
            var disk = new FailingKeyDisk();
            var file = MasterKeyFile.On(disk, Path);
            var holder = new Holder(file.ReadOrCreate(time), 5) { MayFail = () => disk.SyncFolder("") };
            disk.FailAt = disk.Operations + n;
            var ended = TryRotate(file, holder);
            failed += ended ? 0 : 1;
            disk.FailAt = 0;

            Assert.True(holder.OpensWith(file.Read()), $"after step {n}");
            KeyRotation.Finish(file, [holder]);
            Assert.True(holder.OpensWith(file.Read()));
            Assert.Single(file.Read().Keys);
            if (ended)
            {
                break;
            }
        }

        // Two replacements of the key file of four operations each, and five keys between.
        Assert.Equal(13, failed);
    }

    private bool TryRotate(MasterKeyFile file, Holder holder)
    {
        try
        {
            KeyRotation.Run(file, [holder], time);
            return true;
        }
        catch (Exception e) when (e is IOException or KeyException)
        {
            return false;
        }
    }

    private sealed class Holder(KeyRing ring, int count) : IKeyHolder
    {
        private readonly List<byte[]> wrapped =
        [
            .. Enumerable.Range(1, count).Select(n => ring.Wrap(Enumerable.Repeat((byte)n, 32).ToArray())),
        ];

        public Action MayFail { get; init; } = () => { };

        public string Name => "a test's keys";

        public IReadOnlyDictionary<MasterKeyId, int> Uses() =>
            wrapped.CountBy(key => KeyRing.WrappedUnder(key)).ToDictionary();

        public int WrapAnew(KeyRing keys)
        {
            for (var i = 0; i < wrapped.Count; i++)
            {
                var anew = keys.WrapAnew(wrapped[i]);
                MayFail();
                wrapped[i] = anew;
            }

            return wrapped.Count;
        }

        public bool OpensWith(KeyRing keys)
        {
            try
            {
                return wrapped.Select((key, i) => keys.Unwrap(key).All(b => b == i + 1)).All(isRight => isRight);
            }
            catch (KeyException)
            {
                return false;
            }
        }
    }
}
