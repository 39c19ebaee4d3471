"""Learns the panel network on rendered views; see README.md in this folder.

learn_network.py learn START.npz DATA REAL.npz OUT SEED MINUTES TRAITS  one network, into OUT/run-SEED.pt and .onnx, and with part of the
                                                                 weights it started from, into OUT/run-SEED-90.onnx and so on
learn_network.py mean START.npz DATA REAL.npz OUT                means of the weights of OUT/run-*.pt, exported to OUT

START.npz: weights of the packaged ResNet18 by the parameter names of its ONNX file. DATA holds the folders train, held and shifted, written
by the trainer's `views` command. REAL.npz: labelled real views to report on (JPEG bytes, lengths n, labels y, groups g); they are never
trained on. Views may still be written while it learns. Runs of other seeds may go side by side, one a GPU. TRAITS: names of what to do against
learning the renderer, joined by commas, or none: spectra (mix amplitudes between views), guide (stay near what the starting network sees),
blur (random small filters), still (the first two blocks stay as they are packaged), pairs (the folders pairs* of DATA too: panels with two
faults).
"""
import copy
import glob
import io
import sys
import time

import numpy as np
import torch
import torch.nn as nn
import torch.nn.functional as F
from PIL import Image

CLASSES = ["sound", "stains", "deposits", "rings", "domes", "craters", "pits", "nibs", "grit", "wavy_texture",
           "runs", "wrinkles", "crack_network", "random_cracks", "parallel_scratches", "swirl", "single_scratch",
           "chips", "film_loss", "rust", "dulling", "mottling", "repair_outline", "color_difference",
           "not_a_panel"]
# What the labels of the real photos are called here; several classes may answer to one.
REAL = {"chips": ["chips"], "cracking_checking": ["crack_network", "random_cracks"], "peeling_flaking": ["film_loss"],
        "scratches_swirls": ["parallel_scratches", "swirl", "single_scratch"], "sound_glossy": ["sound"], "rust": ["rust"]}
# How often the product expects each class (ClassShares.Expected).
OFTEN = {"sound": 14, "not_a_panel": 2, **dict.fromkeys(["chips", "film_loss", "rust", "crack_network", "random_cracks", "parallel_scratches",
                                                        "swirl", "single_scratch", "dulling"], 3)}
EXPECTED = np.array([OFTEN.get(c, 1) for c in CLASSES]) / sum(OFTEN.get(c, 1) for c in CLASSES)
SIDE, MASK = 448, 56
# The product looks twice: at the picture as it is learned from, and at a smaller one in which left and right are changed.
SMALL = 320
# Views that a GPU of 140 GB holds beside the learning; steps between two looks for new views.
ROOM, ROUND = 170_000, 400
BEGIN = time.time()
DEVICE = "cuda" if torch.cuda.is_available() else "cpu"


def say(*words):
    print(f"[{time.time() - BEGIN:5.0f}s]", *words, flush=True)


# ---------------------------------------------------------------- network

class Block(nn.Module):
    """Two 3 x 3 convolutions beside a shortcut."""

    def __init__(self, inside, outside, stride):
        super().__init__()
        self.stride = stride
        self.conv1 = nn.Conv2d(inside, outside, 3, stride, 0 if stride == 2 else 1, bias=False)
        self.bn1 = nn.BatchNorm2d(outside)
        self.conv2 = nn.Conv2d(outside, outside, 3, 1, 1, bias=False)
        self.bn2 = nn.BatchNorm2d(outside)
        self.short = None
        if stride == 2 or inside != outside:
            self.short = nn.Sequential(nn.Conv2d(inside, outside, 1, stride, 0, bias=False), nn.BatchNorm2d(outside))

    def forward(self, x):
        # The starting network was learned with padding on the left and top only where it halves the picture.
        y = F.pad(x, PAD2) if self.stride == 2 else x
        y = F.relu(self.bn1(self.conv1(y)))
        y = self.bn2(self.conv2(y))
        return F.relu(y + (x if self.short is None else self.short(x)))


PAD2 = (1, 0, 1, 0)


class Body(nn.Module):
    def __init__(self, blocks=8):
        super().__init__()
        self.conv = nn.Conv2d(3, 64, 7, 2, 0, bias=False)
        self.bn = nn.BatchNorm2d(64)
        plan = [(64, 64, 1), (64, 64, 1), (64, 128, 2), (128, 128, 1), (128, 256, 2), (256, 256, 1), (256, 512, 2), (512, 512, 1), (512, 512, 1)]
        self.blocks = nn.ModuleList(Block(*p) for p in plan[:blocks])
        self.register_buffer("mean", torch.tensor([103.06262, 115.902885, 123.15163]).view(1, 3, 1, 1))
        self.mix = False

    def forward(self, rgb):
        x = F.pad(rgb.flip(1) - self.mean, (3, 2, 3, 2))
        x = F.relu(self.bn(self.conv(x)))
        x = F.max_pool2d(F.pad(x, (1, 0, 1, 0)), 3, 2)
        for at, block in enumerate(self.blocks):
            if self.mix and self.training and at in (0, 2, 4):
                x = mix_style(x)
            x = block(x)
        return x


def mix_style(x):
    """Swaps contrast and level of feature channels between pictures, so that no class is known by its rendering style."""
    if torch.rand(1).item() > 0.5:
        return x
    with torch.no_grad():
        level, spread = x.mean((2, 3), keepdim=True), x.std((2, 3), keepdim=True) + 1e-3
        other = torch.randperm(len(x), device=x.device)
        share = torch.distributions.Beta(0.3, 0.3).sample((len(x), 1, 1, 1)).to(x)
    x = (x - level) / spread
    return x * (share * spread + (1 - share) * spread[other]) + share * level + (1 - share) * level[other]


class PanelNet(nn.Module):
    def __init__(self, blocks=8):
        super().__init__()
        self.body = Body(blocks)
        self.photo = nn.Linear(1024, len(CLASSES))
        self.cells = nn.Conv2d(512, len(CLASSES), 1)
        self.drop = nn.Dropout(0.3)

    def pool(self, map_):
        return map_.mean((2, 3)), F.avg_pool2d(map_, 2, 1).amax((2, 3))

    def answer(self, map_):
        return self.photo(self.drop(torch.cat(self.pool(map_), 1))), self.cells(map_)

    def forward(self, rgb):
        map_ = self.body(rgb)
        return *self.pool(map_), *self.answer(map_)


def start(net, path):
    """Copies the packaged weights: layers lie in the order of use, but a shortcut may stand before what it bypasses."""
    z = np.load(path)
    stored = list(range(len(z.files) // 5))
    layers = [(net.body.conv, net.body.bn)]
    for block in net.body.blocks:
        layers += [(block.conv1, block.bn1), (block.conv2, block.bn2)]
        if block.short is not None:
            layers.append((block.short[0], block.short[1]))
    for conv, norm in layers:
        at = next(i for i in stored if z[f"{i}_weight"].shape == tuple(conv.weight.shape))
        stored.remove(at)
        for target, name in ((conv.weight, "weight"), (norm.weight, "scale"), (norm.bias, "shift"),
                             (norm.running_mean, "mean"), (norm.running_var, "variance")):
            target.data.copy_(torch.tensor(z[f"{at}_{name}"].astype(np.float32)))


# ---------------------------------------------------------------- data

class Views:
    """All views of the folders that fit the pattern, in the memory of the GPU; more are taken in while others write them."""

    def __init__(self, pattern, room):
        self.pattern, self.taken = pattern, {}
        self.pictures = torch.empty((room, SIDE, SIDE, 3), dtype=torch.uint8, device=DEVICE)
        self.masks = torch.empty((room, MASK, MASK), dtype=torch.uint8, device=DEVICE)
        self.labels = torch.empty(room, dtype=torch.long, device=DEVICE)
        # Without a second fault: the class of the first and an empty mask.
        self.seconds = torch.zeros_like(self.masks)
        self.second_labels = torch.empty_like(self.labels)
        self.count = 0
        self.take()

    def take(self):
        for folder in sorted(glob.glob(self.pattern)):
            rows = [line.strip().split(",") for line in open(f"{folder}/index.csv") if line.endswith("\n")]
            begin = self.taken.get(folder, 0)
            for at in range(begin, len(rows), 512):
                part = rows[at:at + min(512, len(self.labels) - self.count)]
                n = len(part)
                if n == 0:
                    return
                here = slice(self.count, self.count + n)
                self.pictures[here] = bytes_of(f"{folder}/views.bin", at, n, (SIDE, SIDE, 3))
                self.masks[here] = bytes_of(f"{folder}/masks.bin", at, n, (MASK, MASK))
                self.labels[here] = torch.tensor([CLASSES.index(r[0]) for r in part], device=DEVICE)
                self.second_labels[here] = torch.tensor([CLASSES.index(r[2] if len(r) > 2 else r[0]) for r in part], device=DEVICE)
                if len(part[0]) > 2:
                    self.seconds[here] = bytes_of(f"{folder}/seconds.bin", at, n, (MASK, MASK))
                self.count += n
                self.taken[folder] = at + n


def bytes_of(path, first, count, shape):
    size = int(np.prod(shape))
    return torch.from_numpy(np.fromfile(path, np.uint8, count * size, offset=first * size).reshape(count, *shape)).to(DEVICE)


def read_real(path):
    z = np.load(path)
    ends = np.cumsum(z["n"])
    pictures = [np.asarray(Image.open(io.BytesIO(z["buf"][e - n:e].tobytes()))) for n, e in zip(z["n"], ends)]
    return torch.from_numpy(np.stack(pictures)), z["y"]


def augment(x, mask):
    """Other crops, turns, light, color, focus, noise: x in 0..1."""
    n = len(x)
    u = lambda low, high, *s: torch.rand(n, *s, device=x.device) * (high - low) + low
    some = lambda p, *s: (torch.rand(n, *s, device=x.device) < p).float()
    turn = u(-0.25, 0.25) * some(0.5) + torch.randint(0, 4, (n,), device=x.device) * (np.pi / 2) * some(0.6)
    zoom, squeeze = torch.exp(u(np.log(0.5), np.log(1.12))), torch.exp(u(-0.25, 0.25))
    flip = torch.sign(torch.rand(n, device=x.device) - 0.5)
    room = (1 - zoom).clamp(min=0)
    c, s = torch.cos(turn), torch.sin(turn)
    frame = torch.stack([torch.stack([c * zoom * squeeze * flip, -s * zoom, u(-1, 1) * room], 1),
                         torch.stack([s * zoom * flip, c * zoom / squeeze, u(-1, 1) * room], 1)], 1)
    size = int(np.random.choice([384, 416, 448]))
    x = F.grid_sample(x, F.affine_grid(frame, (n, 3, size, size), align_corners=False), padding_mode="reflection", align_corners=False)
    mask = F.grid_sample(mask, F.affine_grid(frame, (n, 1, MASK, MASK), align_corners=False), padding_mode="reflection", align_corners=False)
    x = x.clamp(1e-4, 1) ** torch.exp(u(-0.5, 0.5, 1, 1, 1))
    x = x * torch.exp(u(-0.12, 0.12, 3, 1, 1)) * torch.exp(u(-0.35, 0.25, 1, 1, 1))
    level = x.mean((1, 2, 3), keepdim=True)
    x = (x - level) * torch.exp(u(-0.5, 0.5, 1, 1, 1)) + level
    gray = x.mean(1, keepdim=True)
    changed = some(0.7, 1, 1, 1)
    x = gray + (x - gray) * (u(0, 1.5, 1, 1, 1) * changed + 1 - changed)
    yy, xx = torch.meshgrid(*[torch.linspace(-1, 1, size, device=x.device)] * 2, indexing="ij")
    x = x * (1 + some(0.4, 1, 1, 1) * (u(-0.4, 0.4, 1, 1, 1) * xx + u(-0.4, 0.4, 1, 1, 1) * yy)).clamp(min=0.1)
    draw = torch.rand(1).item()
    if draw < 0.3:
        share = float(np.random.choice([0.75, 0.6, 0.45, 0.35]))
        x = F.interpolate(F.interpolate(x, scale_factor=share, mode="bilinear", antialias=True), (size, size), mode="bilinear")
    elif draw < 0.45:
        x = F.avg_pool2d(F.pad(x, [1] * 4, mode="reflect"), 3, 1)
    if torch.rand(1).item() < 0.4:
        x = x + (0.2 + torch.rand(1).item()) * (x - F.avg_pool2d(F.pad(x, [1] * 4, mode="reflect"), 3, 1))
    x = x + torch.randn_like(x) * u(0, 0.05, 1, 1, 1) * some(0.6, 1, 1, 1)
    return x.clamp(0, 1), mask


def mix_spectra(x):
    """Gives a picture part of the amplitudes of another one and keeps its phases: other grain and contrast, same shapes."""
    spectrum = torch.fft.rfft2(x)
    other = torch.randperm(len(x), device=x.device)
    share = torch.rand(len(x), 1, 1, 1, device=x.device) * 0.6 * (torch.rand(len(x), 1, 1, 1, device=x.device) < 0.5)
    amplitude = spectrum.abs()
    mixed = amplitude * (1 - share) + amplitude[other] * share
    mixed[..., 0, 0] = amplitude[..., 0, 0]
    return torch.fft.irfft2(mixed * torch.exp(1j * spectrum.angle()), s=x.shape[2:]).clamp(0, 1)


def filter_randomly(x):
    """Runs each picture through a small random filter and blends it in: other fine texture, same shapes."""
    n = len(x)
    side = int(np.random.choice([1, 3]))
    kernel = torch.randn(n * 3, 3, side, side, device=x.device) / (3 * side * side) ** 0.5
    other = F.conv2d(F.pad(x.reshape(1, n * 3, *x.shape[2:]), [side // 2] * 4, mode="reflect"), kernel, groups=n).reshape(x.shape)
    level, spread = x.mean((2, 3), keepdim=True), x.std((2, 3), keepdim=True)
    other = (other - other.mean((2, 3), keepdim=True)) / (other.std((2, 3), keepdim=True) + 1e-3) * spread + level
    share = torch.rand(n, 1, 1, 1, device=x.device) * 0.6 * (torch.rand(n, 1, 1, 1, device=x.device) < 0.4)
    return (x * (1 - share) + other * share).clamp(0, 1)


# ---------------------------------------------------------------- learning

def rate_at(done):
    """Share of the highest rate when this share of the time is over: up in a seventh of it, then down along a cosine."""
    return 0.04 + 0.96 * done / 0.15 if done < 0.15 else max(1e-4, 0.5 + 0.5 * np.cos(np.pi * (done - 0.15) / 0.85))


def learn(net, views, minutes, rate, batch=96, seed=0, smoothing=0.05, traits=()):
    torch.manual_seed(seed)
    np.random.seed(seed)
    none = len(CLASSES) - 1
    net = net.to(DEVICE, memory_format=torch.channels_last)
    first = copy.deepcopy(net.body).eval().requires_grad_(False)
    first.mix = False
    adapter = nn.Conv2d(512, 512, 1, bias=False).to(DEVICE)
    nn.init.eye_(adapter.weight.data[:, :, 0, 0])
    if "still" in traits:
        for part in (net.body.conv, net.body.bn, *net.body.blocks[:2]):
            part.requires_grad_(False)
    body = [p for p in net.body.parameters() if p.requires_grad]
    heads = [*net.photo.parameters(), *net.cells.parameters(), *adapter.parameters()]
    optimizer = torch.optim.AdamW([dict(params=body, lr=rate), dict(params=heads, lr=2e-3)], weight_decay=0.03)
    average = copy.deepcopy(net).eval()
    done, begin, told = 0, time.time(), time.time()
    share_done = 0.0
    while share_done < 1:
        # Views that were written meanwhile join at the next turn.
        views.take()
        order = torch.randperm(views.count, device=DEVICE)[:batch * ROUND]
        for at in range(0, len(order) - batch + 1, batch):
            share_done = min(1.0, (time.time() - begin) / (60 * minutes))
            for group, highest in zip(optimizer.param_groups, (rate, 2e-3)):
                group["lr"] = highest * rate_at(share_done)
            net.train()
            for module in net.modules():
                if isinstance(module, nn.BatchNorm2d):
                    module.eval()
            pick = order[at:at + batch]
            x = views.pictures[pick].permute(0, 3, 1, 2).float() / 255
            m = torch.stack([views.masks[pick], views.seconds[pick]], 1).float() / 255
            y, y2 = views.labels[pick], views.second_labels[pick]
            x, m = augment(x, m)
            m, m2 = m[:, :1], m[:, 1:]
            if "spectra" in traits:
                x = mix_spectra(x)
            if "blur" in traits:
                x = filter_randomly(x)
            with torch.autocast(DEVICE, dtype=torch.bfloat16):
                map_ = net.body(x * 255)
                photo, cells = net.answer(map_)
            photo, cells = photo.float(), cells.float()
            side = cells.shape[2:]
            share, share2 = F.adaptive_avg_pool2d(m, side)[:, 0], F.adaptive_avg_pool2d(m2, side)[:, 0]
            peak, peak2 = (F.max_pool2d(s[:, None], 2, 1).flatten(1).amax(1) for s in (share, share2))
            fault, fault2 = (y > 0) & (y < none), (y2 > 0) & (y2 < none)
            seen, seen2 = fault & (peak >= 0.03), fault2 & (peak2 >= 0.03)
            unsure = (fault & (peak >= 0.01) & (peak < 0.03)) | (fault2 & (peak2 >= 0.01) & (peak2 < 0.03))
            one = F.one_hot(y, len(CLASSES)) * seen[:, None] + F.one_hot(y2, len(CLASSES)) * seen2[:, None]
            plain = F.one_hot(torch.where(y == none, y, 0), len(CLASSES))
            want = torch.where((seen | seen2)[:, None], one, plain).float()
            want = want / want.sum(1, keepdim=True)
            want = want * (1 - smoothing) + smoothing / len(CLASSES)
            zero = torch.zeros_like(share, dtype=torch.long)
            target = torch.where((share > 0.05) | (y == none)[:, None, None], y[:, None, None], zero)
            target = torch.where((share2 > 0.05) & fault2[:, None, None], y2[:, None, None], target)
            skip = ((share > 0.005) & (share <= 0.05)) | ((share2 > 0.005) & (share2 <= 0.05))
            dense = (F.cross_entropy(cells, target, reduction="none") * (~skip) * (1 + 2.0 * (target > 0))).mean()
            whole = (-(want * photo.log_softmax(1)).sum(1) * (~unsure)).mean()
            loss = whole + 0.6 * dense
            if "guide" in traits:
                with torch.no_grad(), torch.autocast(DEVICE, dtype=torch.bfloat16):
                    known = first(x * 255)
                loss = loss + 2.0 * (1 - F.cosine_similarity(adapter(map_.float()), known.float(), dim=1)).mean()
            optimizer.zero_grad()
            loss.backward()
            optimizer.step()
            done += 1
            keep = min(0.995, done / (done + 20))
            with torch.no_grad():
                for a, b in zip(average.state_dict().values(), net.state_dict().values()):
                    a.lerp_(b, 1 - keep) if a.is_floating_point() else a.copy_(b)
        if time.time() - told > 120:
            told = time.time()
            say(f"  {views.count} views, {done * batch} seen, loss {loss.item():.3f}")
            report(average, f"  at {share_done:.2f} of the time", short=True)
    return average


REPORT = {}


@torch.no_grad()
def scores(net, pictures, both=True):
    """Probabilities for pictures as the product looks at them: a mean of logarithms over its two looks, or from the larger one alone."""
    net.eval()
    photo = []
    for at in range(0, len(pictures), 128):
        x = pictures[at:at + 128].to(DEVICE).permute(0, 3, 1, 2).float()
        with torch.autocast(DEVICE, dtype=torch.bfloat16):
            looks = [net(look)[2].float().log_softmax(1) for look in ([x, smaller(x).flip(3)] if both else [x])]
        photo.append(torch.stack(looks).mean(0).softmax(1).cpu())
    return torch.cat(photo).numpy()


def smaller(pictures):
    return F.interpolate(pictures, (SMALL, SMALL), mode="bilinear", antialias=True)


def macro(truth, guess, labels):
    out = []
    for c in labels:
        hit = ((truth == c) & (guess == c)).sum()
        out.append(2 * hit / max(1, (truth == c).sum() + (guess == c).sum()))
    return float(np.mean(out)), [round(float(v), 2) for v in out]


def by_label(p, known):
    """Shares of the real photos' labels, then of the classes that answer to none of them."""
    taken = [c for label in known for c in REAL[label]]
    columns = [p[:, [CLASSES.index(c) for c in REAL[label]]].sum(1) for label in known]
    rest = [i for i, c in enumerate(CLASSES) if c not in taken]
    return np.concatenate([np.stack(columns, 1), p[:, rest]], 1), [*known, *[CLASSES[i] for i in rest]]


def report(net, name, short=False):
    lines = {}
    for key in ("held", "shifted", "real"):
        pictures, labels = REPORT[key]
        p = scores(net, pictures)
        if key != "real":
            # The sets hold all classes alike, the views for learning more sound panels.
            f, each = macro(labels.cpu().numpy(), (p / REPORT["share"]).argmax(1), range(len(CLASSES)))
            lines[key] = f"{key} {f:.3f}" + ("" if short else f" {dict(zip(CLASSES, each))}")
            continue
        known = sorted(set(labels.tolist()))
        y = np.array([known.index(v) for v in labels.tolist()])
        expected = p * (EXPECTED / REPORT["share"])
        expected = by_label(expected / expected.sum(1, keepdims=True), known)[0]
        surer = expected.max(1) >= np.median(expected.max(1))
        f, _ = macro(y, expected.argmax(1), range(len(known)))
        lines["expected"] = f"real at expected shares {f:.3f} surer half {np.mean((expected.argmax(1) == y)[surer]):.2f}"
        q, names = by_label(p, known)
        guess, top = q.argmax(1), p.argmax(1)
        plain = np.array([next((k for k, label in enumerate(known) if CLASSES[t] in REAL[label]), -1) for t in top])
        sure = q.max(1) >= np.median(q.max(1))
        among = q[:, :len(known)] / q[:, :len(known)].sum(1, keepdims=True)
        loss = -np.mean([np.log(max(1e-6, among[y == k, k].mean())) for k in range(len(known))])
        f, each = macro(y, guess, range(len(known)))
        lines[key] = (f"real {f:.3f} acc {np.mean(guess == y):.2f} surer half {np.mean((guess == y)[sure]):.2f} by top class "
                      f"{macro(y, plain, range(len(known)))[0]:.3f} among the labels {macro(y, among.argmax(1), range(len(known)))[0]:.3f} {each} loss {loss:.2f}")
        if not short:
            for k, label in enumerate(known):
                lines[label] = f"\n      {label}: " + str({names[i]: int(v) for i, v in zip(*np.unique(guess[y == k], return_counts=True))})
    say(name, " ".join(lines.values()))
    return f


def soup(nets, weights=None):
    """Mean of the weights of networks that started alike."""
    weights = weights or [1 / len(nets)] * len(nets)
    mixed = copy.deepcopy(nets[0])
    states = [n.state_dict() for n in nets]
    with torch.no_grad():
        for key, value in mixed.state_dict().items():
            if value.is_floating_point():
                value.copy_(sum(w * s[key].float() for w, s in zip(weights, states)))
    return mixed.eval()


# Shares of the learned weights that are tried on the way back.
BACK = (0.9, 0.85, 0.8)


def back(net, first, share):
    """
    Part of the way back to the weights it started from: what they knew of photos comes back sooner than what was learned of renders is lost
    (Wortsman et al., Robust fine-tuning of zero-shot models, arXiv:2109.01903).
    """
    mixed = copy.deepcopy(net)
    mixed.body = soup([net.body, first.body], [share, 1 - share])
    return mixed


# ---------------------------------------------------------------- export

def export(net, path):
    """ONNX with 8-bit weights: each output channel of a convolution has its own step. The reader folds them at loading."""
    import onnx
    from onnx import TensorProto, helper, numpy_helper
    net = copy.deepcopy(net).float().cpu().eval().to(memory_format=torch.contiguous_format)
    torch.onnx.export(net, torch.zeros(1, 3, SIDE, SIDE), path, input_names=["pixels"],
                      output_names=["mean", "peak", "photo", "cells"], opset_version=13, dynamo=False,
                      dynamic_axes={"pixels": {2: "height", 3: "width"}, "cells": {2: "rows", 3: "columns"}})
    model = onnx.load(path)
    graph = model.graph
    used = {n.input[1] for n in graph.node if n.op_type in ("Conv", "Gemm")}
    front, kept = [], []
    for tensor in graph.initializer:
        w = numpy_helper.to_array(tensor)
        if tensor.name not in used or w.size < 4096:
            kept.append(tensor)
            continue
        step = np.maximum(np.abs(w).reshape(len(w), -1).max(1), 1e-12) / 127
        shape = (len(w),) + (1,) * (w.ndim - 1)
        small = np.clip(np.round(w / step.reshape(shape)), -127, 127).astype(np.int8)
        kept += [numpy_helper.from_array(small, tensor.name + "_q"),
                 numpy_helper.from_array(step.reshape(shape).astype(np.float32), tensor.name + "_step")]
        front += [helper.make_node("Cast", [tensor.name + "_q"], [tensor.name + "_f"], to=TensorProto.FLOAT),
                  helper.make_node("Mul", [tensor.name + "_f", tensor.name + "_step"], [tensor.name])]
    nodes = front + list(graph.node)
    del graph.initializer[:], graph.node[:]
    graph.initializer.extend(kept)
    graph.node.extend(nodes)
    onnx.checker.check_model(model)
    onnx.save(model, path)


def check(net, path):
    import onnxruntime
    session = onnxruntime.InferenceSession(path, providers=["CPUExecutionProvider"])
    pictures, _ = REPORT["real"]
    got = np.concatenate([session.run(["photo"], {"pixels": p[None].permute(0, 3, 1, 2).float().numpy()})[0] for p in pictures])
    want = scores(net, pictures, both=False)
    say(path, f"same answer in 8 bit as the learned net on {np.mean(got.argmax(1) == want.argmax(1)):.2f} of the real photos")


def ready(data, real, room=1024, pattern="train*"):
    for key in ("held", "shifted"):
        some = Views(f"{data}/{key}", 1200)
        REPORT[key] = (some.pictures[:some.count], some.labels[:some.count])
    REPORT["real"] = read_real(real)
    views = Views(f"{data}/{pattern}", room)
    count = sum(torch.bincount(some[:views.count], minlength=len(CLASSES)).float() for some in (views.labels, views.second_labels))
    REPORT["share"] = (count / count.sum()).cpu().numpy()
    say(f"{views.count} rendered views so far, {len(REPORT['held'][1])} held out, {len(REPORT['real'][1])} real")
    return views


def learn_one(begin, data, real, out, seed, minutes, traits):
    views = ready(data, real, ROOM, "[tp][ra][ai]*" if "pairs" in traits else "train*")
    net = PanelNet(7)
    start(net, begin)
    net.body.mix = True

    say(f"run {seed}: {traits}")
    net = learn(net, views, minutes, 1e-4, seed=seed, traits=traits.split(","))
    report(net, f"run {seed} {traits}")
    torch.save(net.state_dict(), f"{out}/run-{seed}.pt")
    export(net, f"{out}/run-{seed}.onnx")
    check(net, f"{out}/run-{seed}.onnx")
    first = PanelNet(7)
    start(first, begin)
    for share in BACK:
        mixed = back(net, first.to(DEVICE), share)
        report(mixed, f"run {seed} at {share}")
        export(mixed, f"{out}/run-{seed}-{round(share * 100)}.onnx")
        check(mixed, f"{out}/run-{seed}-{round(share * 100)}.onnx")


def mean_of_all(begin, data, real, out):
    ready(data, real)
    nets = []
    for path in sorted(glob.glob(f"{out}/run-*.pt")):
        net = PanelNet(7)
        net.load_state_dict(torch.load(path, map_location="cpu"))
        nets.append(net.to(DEVICE, memory_format=torch.channels_last).eval())
    first = PanelNet(7)
    start(first, begin)
    first.to(DEVICE)
    for name, some in [("mean", nets), *[(f"mean-{i + 1}-{j + 1}", [nets[i], nets[j]]) for i in range(len(nets)) for j in range(i)]]:
        mean = soup(some)
        report(mean, name, short=len(some) < len(nets))
        if len(some) == len(nets):
            export(mean, f"{out}/{name}.onnx")
    for share in BACK:
        mixed = back(soup(nets), first, share)
        report(mixed, f"mean at {share}", short=True)
        export(mixed, f"{out}/mean-{round(share * 100)}.onnx")


def main():
    task, *words = sys.argv[1:]
    if task == "learn":
        learn_one(*words[:4], int(words[4]), float(words[5]), words[6])
    elif task == "mean":
        mean_of_all(*words[:4])
    else:
        sys.exit(__doc__)


if __name__ == "__main__":
    main()
