using System.Text;
using PupilBridge.Keys.Files;

namespace PupilBridge.Keys.Tests.Files;

public sealed class MasterKeyFileTests : IDisposable
{
    private readonly string data = Directory.CreateTempSubdirectory("pupilbridge-keys-").FullName;

    private string FilePath => Path.Combine(data, "keys", "master.json");

    public void Dispose() => Directory.Delete(data, recursive: true);

    [Fact]
    public void A_new_file_is_for_its_owner_alone_and_reads_back()
    {
        var file = MasterKeyFile.Own(FilePath);
        var made = file.ReadOrCreate(TimeProvider.System);
        var key = Enumerable.Repeat((byte)7, 32).ToArray();

        var read = file.ReadOrCreate(TimeProvider.System);

        Assert.Equal(key, read.Unwrap(made.Wrap(key)));
        Assert.False(File.Exists(FilePath + ".new"));
        if (!OperatingSystem.IsWindows())
        {
            Assert.Equal(UnixFileMode.UserRead | UnixFileMode.UserWrite, File.GetUnixFileMode(FilePath));
            Assert.Equal(
                UnixFileMode.UserRead | UnixFileMode.UserWrite | UnixFileMode.UserExecute,
                File.GetUnixFileMode(Path.GetDirectoryName(FilePath)!)
            );
        }
    }

    [Theory]
    [InlineData(UnixFileMode.GroupRead)]
    [InlineData(UnixFileMode.OtherRead)]
    [InlineData(UnixFileMode.GroupWrite)]
    [InlineData(UnixFileMode.OtherExecute)]
    public void A_file_that_others_can_use_is_refused(UnixFileMode more)
    {
        if (OperatingSystem.IsWindows())
        {
            return; // There are no such modes.
        }

        var file = MasterKeyFile.Own(FilePath);
        file.ReadOrCreate(TimeProvider.System);
        File.SetUnixFileMode(FilePath, UnixFileMode.UserRead | UnixFileMode.UserWrite | more);

        var refused = Assert.Throws<KeyException>(() => file.Read());

        Assert.Contains(FilePath, refused.Message, StringComparison.Ordinal);
        Assert.Contains("chmod 600", refused.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void A_folder_in_which_others_can_write_is_refused()
    {
        if (OperatingSystem.IsWindows())
        {
            return; // There are no such modes.
        }

        var file = MasterKeyFile.Own(FilePath);
        file.ReadOrCreate(TimeProvider.System);
        var folder = Path.GetDirectoryName(FilePath)!;
        File.SetUnixFileMode(folder, File.GetUnixFileMode(folder) | UnixFileMode.OtherWrite);
        Assert.Contains("chmod 700", Assert.Throws<KeyException>(() => file.Read()).Message, StringComparison.Ordinal);
    }

    [Fact]
    public void A_file_handed_over_by_the_service_manager_is_read_and_never_written()
    {
        var own = MasterKeyFile.Own(FilePath);
        var ring = own.ReadOrCreate(TimeProvider.System);
        var handedOver = MasterKeyFile.HandedOver(FilePath);
        Assert.Equal(ring.Current, handedOver.Read().Current);
        Assert.Throws<KeyException>(() => handedOver.Replace(ring));
        File.Delete(FilePath);
        Assert.Throws<KeyException>(() => handedOver.ReadOrCreate(TimeProvider.System));
        Assert.False(File.Exists(FilePath));
    }

    [Fact]
    public void A_missing_file_is_named()
    {
        var refused = Assert.Throws<KeyException>(() => MasterKeyFile.Own(FilePath).Read());
        Assert.Contains(FilePath, refused.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void No_changed_byte_gives_another_key_and_no_message_repeats_the_secret()
    {
        var file = MasterKeyFile.Own(FilePath);
        var ring = file.ReadOrCreate(TimeProvider.System);
        var whole = File.ReadAllBytes(FilePath);
        var secret = Encoding.UTF8.GetString(whole).Split("\"key\": \"")[1][..40];
        var wrapped = ring.Wrap(new byte[32]);
        var refused = 0;
        for (var at = 0; at < whole.Length; at++)
        {
            var altered = whole.ToArray();
            altered[at] ^= 0x02;
            File.WriteAllBytes(FilePath, altered);
            try
            {
                // What is no part of the keys (the remark for people, the time) may differ.
                Assert.Equal(new byte[32], file.Read().Unwrap(wrapped));
            }
            catch (KeyException e)
            {
                refused++;
                Assert.DoesNotContain(secret, e.ToString(), StringComparison.Ordinal);
            }
        }

        Assert.True(refused > 100, $"only {refused} changes were refused");
    }
}
