"""Makes opencv.json with OpenCV: `python make.py FOLDER-WITH-left01.jpg...`.

The pictures are the chessboard views left01.jpg to left14.jpg that OpenCV ships as sample data (Debian package
opencv-doc 4.6.0, examples/data; Apache-2.0). Only the positions of their corners are kept, found by OpenCV.
"""

import glob
import json
import random
import sys

import cv2
import numpy as np

COLUMNS, ROWS = 9, 6
random.seed(20)


def maps():
    out = []
    while len(out) < 40:
        size = [random.uniform(2, 40), random.uniform(2, 40)]
        middle = np.array([random.uniform(800, 3200), random.uniform(600, 2400)])
        quad = [middle + np.array(d) * random.uniform(60, 700) for d in ((-1, -1), (1, -1), (1, 1), (-1, 1))]
        edge = [quad[(k + 1) % 4] - quad[k] for k in range(4)]
        turn = [edge[k][0] * edge[(k + 1) % 4][1] - edge[k][1] * edge[(k + 1) % 4][0] for k in range(4)]
        if min(turn) <= 0.2 * max(turn):  # else a point may be seen next to the horizon
            continue
        plane = np.float64([[0, 0], [size[0], 0], size, [0, size[1]]])
        # It takes single precision and solves in double: what is written down is what it was given.
        plane, quad = np.float32(plane), np.float32(quad)
        size = [float(x) for x in plane[2]]
        h = cv2.getPerspectiveTransform(plane, quad)
        # OpenCV's own solution is good to some ten-thousandths of a pixel; NumPy solves the same equations better.
        rows = []
        for (x, y), (u, v) in zip(plane.astype(float), quad.astype(float)):
            rows += [[x, y, 1, 0, 0, 0, -u * x, -u * y], [0, 0, 0, x, y, 1, -v * x, -v * y]]
        exact = np.append(np.linalg.solve(rows, quad.astype(float).ravel()), 1).reshape(3, 3)
        points = [[random.uniform(0, size[0]), random.uniform(0, size[1])] for _ in range(4)]
        seen = cv2.perspectiveTransform(np.float64([points]), h)[0]
        solved = cv2.perspectiveTransform(np.float64([points]), exact)[0].tolist()
        one = {"size": size, "corners": quad.astype(float).tolist(), "points": points}
        out.append({**one, "seen": seen.tolist(), "solved": solved})
    return out


def boards(folder):
    found, size = [], None
    for name in sorted(glob.glob(folder + "/left[0-9][0-9].jpg")):
        gray = cv2.imread(name, cv2.IMREAD_GRAYSCALE)
        size = gray.shape[::-1]
        ok, corners = cv2.findChessboardCorners(gray, (COLUMNS, ROWS))
        if ok:
            stop = (cv2.TERM_CRITERIA_EPS + cv2.TERM_CRITERIA_MAX_ITER, 40, 0.001)
            found.append(cv2.cornerSubPix(gray, corners, (7, 7), (-1, -1), stop))
    grid = np.zeros((COLUMNS * ROWS, 3), np.float32)
    grid[:, :2] = np.mgrid[0:COLUMNS, 0:ROWS].T.reshape(-1, 2)
    _, lens, bend, _, _ = cv2.calibrateCamera([grid] * len(found), found, size, None, None)
    straight = [cv2.undistortPoints(c, lens, bend, P=lens) for c in found]
    as_list = lambda corners: [[round(float(x), 3) for x in c] for c in np.reshape(corners, (-1, 2))]
    return {
        "columns": COLUMNS,
        "rows": ROWS,
        "width": size[0],
        "height": size[1],
        "focal_pixels": float((lens[0, 0] + lens[1, 1]) / 2),
        "views": [{"seen": as_list(s), "without_bend": as_list(u)} for s, u in zip(found, straight)],
    }


json.dump(
    {"source": f"OpenCV {cv2.__version__}, NumPy {np.__version__}, see make.py", "maps": maps(), "boards": boards(sys.argv[1])},
    open("opencv.json", "w"),
)
